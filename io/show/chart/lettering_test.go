package chart

import (
	"encoding/xml"
	"html"
	"io"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"fencerow/io/show/report"
)

// written is a text of a drawing with the place that it takes.
type written struct {
	text string
	box  box
	size float64
}

var writing = regexp.MustCompile(`<text x="([^"]*)" y="([^"]*)" text-anchor="([^"]*)"(?: font-size="([^"]*)")?( font-weight="bold")?>([^<]*)</text>`)

// figure reads a coordinate.
func figure(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil || math.IsNaN(x) || math.IsInf(x, 0) {
		t.Fatalf("%q is no coordinate", text)
	}
	return x
}

// textsOf reads the texts of a drawing.
func textsOf(t *testing.T, drawn string) (all []written) {
	t.Helper()
	for _, found := range writing.FindAllStringSubmatch(drawn, -1) {
		size := figure(t, found[4])
		n := &note{text: html.UnescapeString(found[6]), x: figure(t, found[1]), y: figure(t, found[2]), align: align(found[3]), size: size, bold: found[5] != ""}
		all = append(all, written{n.text, n.box(), size})
	}
	if len(all) != strings.Count(drawn, "<text") || len(all) == 0 {
		t.Fatalf("%d texts read of %d", len(all), strings.Count(drawn, "<text"))
	}
	return all
}

// rounded is how far coordinates are from what they were computed as.
const rounded = 0.1

// textsApart draws, and asserts that all texts are within the drawing, of 9 points or
// more at its size, and apart from each other; it returns the drawing and its texts.
func textsApart(t *testing.T, name string, d report.Drawing) (string, []written) {
	t.Helper()
	drawn, err := SVG(d, "")
	if err != nil {
		t.Fatalf("%s: %v", name, err)
	}
	if again, _ := SVG(d, ""); again != drawn {
		t.Errorf("%s: drawn twice, it differs", name)
	}
	width, height, unit := viewBox(d)
	if !strings.HasPrefix(drawn, `<svg viewBox="0 0 `+number(width)+" "+number(height)+`"`) {
		t.Errorf("%s: its box is not %g x %g", name, width, height)
	}
	texts := textsOf(t, drawn)
	for i, one := range texts {
		if !one.box.within(box{-rounded, -rounded, width + rounded, height + rounded}) {
			t.Errorf("%s: %q at %v is cut by %g x %g", name, one.text, one.box, width, height)
		}
		if one.size*unit < textSize {
			t.Errorf("%s: %q is of %g points", name, one.text, one.size*unit)
		}
		for _, other := range texts[:i] {
			if one.box.grown(-rounded).meets(other.box) {
				t.Errorf("%s: %q touches %q", name, one.text, other.text)
			}
		}
	}
	return drawn, texts
}

// shape is a rectangle or circle of a drawing with the fill it or its group has.
type shape struct {
	kind, fill string
	box        box
}

// shapesOf reads the rectangles and circles of a drawing, which must be well-formed.
func shapesOf(t *testing.T, drawn string) (all []shape) {
	t.Helper()
	decoder := xml.NewDecoder(strings.NewReader(drawn))
	var fills []string
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return all
		}
		if err != nil {
			t.Fatal(err)
		}
		switch e := token.(type) {
		case xml.EndElement:
			fills = fills[:len(fills)-1]
		case xml.StartElement:
			has := map[string]string{}
			for _, a := range e.Attr {
				has[a.Name.Local] = a.Value
			}
			if has["id"] != "" {
				t.Errorf("an id, %s: two drawings of a page could clash", has["id"])
			}
			if has["fill"] == "" && len(fills) > 0 {
				has["fill"] = fills[len(fills)-1]
			}
			fills = append(fills, has["fill"])
			switch e.Name.Local {
			case "circle":
				x, y, r := figure(t, has["cx"]), figure(t, has["cy"]), figure(t, has["r"])
				all = append(all, shape{"circle", has["fill"], box{x - r, y - r, x + r, y + r}})
			case "rect":
				x, y := figure(t, has["x"]), figure(t, has["y"])
				all = append(all, shape{"rect", has["fill"], box{x, y, x + figure(t, has["width"]), y + figure(t, has["height"])}})
			}
		}
	}
}

// Things that touch share what they are moved by; others stay; the ends hold. Worked by
// hand: 10 and 12, of width 4 and 1 apart, must be 5 from middle to middle, so each moves 1.5.
func TestSpread(t *testing.T) {
	for _, c := range []struct{ wanted, widths, want []float64 }{
		{[]float64{10, 12, 50}, []float64{4, 4, 4}, []float64{8.5, 13.5, 50}},
		{[]float64{0, 99}, []float64{4, 4}, []float64{2, 98}},
		{[]float64{99, 100}, []float64{4, 6}, []float64{91, 97}},
		{[]float64{20}, []float64{4}, []float64{20}},
		{nil, nil, nil},
	} {
		if got := spread(c.wanted, c.widths, 1, 0, 100); !slices.EqualFunc(got, c.want, func(a, b float64) bool { return math.Abs(a-b) < 1e-9 }) {
			t.Errorf("spread(%v, widths %v) = %v, want %v", c.wanted, c.widths, got, c.want)
		}
	}
}

// A program has one fill, whatever is said of it.
func TestFillGoesByTheFirstWord(t *testing.T) {
	for kind, want := range map[string]string{"ARC-CO": black, "ARC-CO more": black, "PLC pays more": hatched, "both the same": netted, "neither pays": white, "": white, "PLCX": white} {
		if got := fillOf(kind); got != want {
			t.Errorf("%q is %s, want %s", kind, got, want)
		}
	}
}
