package chart

import (
	"bytes"
	"fmt"
	"html"
	"math"
	"regexp"
	"strconv"
	"strings"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/font"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"
	"gonum.org/v1/plot/vg/vgsvg"

	"fencerow/io/show/report"
)

// Width and Height of a drawing with axes.
const (
	Width  = 2.7 * vg.Inch
	Height = 2.0 * vg.Inch
)

// SVG returns a drawing as one svg element, without prologue, fit to stand in a page.
// says is read to those who do not see it. An error means values that cannot be
// drawn, such as curves of unequal length.
func SVG(d report.Drawing, says string) (string, error) {
	switch d := d.(type) {
	case report.Squares:
		return squares(d, says), nil
	case report.Curves:
		return drawn(curves(d))(says)
	case report.Spans:
		return drawn(spans(d))(says)
	case report.Columns:
		return drawn(columns(d))(says)
	}
	return "", fmt.Errorf("chart: no drawing for %T", d)
}

// drawn makes a plot into an svg element.
func drawn(p *plot.Plot, err error) func(says string) (string, error) {
	return func(says string) (string, error) {
		if err != nil {
			return "", fmt.Errorf("chart: %w", err)
		}
		canvas := vgsvg.NewWith(vgsvg.UseWH(Width, Height))
		p.Draw(draw.New(canvas))
		var out bytes.Buffer
		if _, err := canvas.WriteTo(&out); err != nil {
			return "", fmt.Errorf("chart: %w", err)
		}
		return element(out.String(), says), nil
	}
}

var opening = regexp.MustCompile(`(?s)^.*?<svg width="([0-9.]+)pt" height="([0-9.]+)pt"[^>]*>`)

// element replaces the opening of an svg document by one that scales with its place
// and is read aloud as says.
func element(document, says string) string {
	size := opening.FindStringSubmatch(document)
	if size == nil {
		return document
	}
	rest := document[len(size[0]):]
	return fmt.Sprintf(`<svg viewBox="0 0 %s %s" role="img" aria-label="%s">`, size[1], size[2], html.EscapeString(says)) + strings.TrimSpace(rest)
}

// plain is a plot without decoration, in one typeface.
func plain(xAxis, yAxis string) *plot.Plot {
	sans := font.Font{Typeface: "Liberation", Variant: "Sans", Size: textSize}
	plot.DefaultFont = sans
	p := plot.New()
	p.BackgroundColor = nil
	for _, axis := range []*plot.Axis{&p.X, &p.Y} {
		axis.Label.TextStyle.Font, axis.Tick.Label.Font = sans, sans
		axis.LineStyle.Width, axis.Tick.LineStyle.Width = thin, thin
	}
	p.X.Label.Text, p.Y.Label.Text = xAxis, yAxis
	p.Y.Tick.Marker = plot.TickerFunc(roundTicks)
	p.Legend.TextStyle.Font = sans
	p.Legend.Top = true
	p.Y.Min = 0
	return p
}

// roundTicks are four to eight places of an axis at 1, 2 or 5 times a power of ten.
func roundTicks(low, high float64) (ticks []plot.Tick) {
	const fewest = 4
	step := math.Pow10(int(math.Ceil(math.Log10(max(high-low, 1e-9)))))
	for i := 0; (high-low)/step < fewest; i++ {
		step /= []float64{2, 2.5, 2}[i%3] // 10, 5, 2, 1, ...
	}
	for k := math.Ceil(low / step); k*step <= high; k++ {
		ticks = append(ticks, plot.Tick{Value: k * step, Label: strconv.FormatFloat(k*step, 'g', 6, 64)})
	}
	return ticks
}

const (
	textSize = vg.Length(8)
	thin     = vg.Length(0.5)
	thick    = vg.Length(1.5)
)
