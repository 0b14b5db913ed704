package chart

import (
	"fmt"
	"image/color"
	"math"
	"slices"

	"gonum.org/v1/plot"
	"gonum.org/v1/plot/plotter"
	"gonum.org/v1/plot/vg"
	"gonum.org/v1/plot/vg/draw"

	"fencerow/io/show/report"
)

// dashes tell the curves apart, beside the first one's width: none, long, none, dots.
var dashes = [][]vg.Length{nil, {7, 3}, nil, {1, 2}}

// curves draws lines with a legend, and a fine upright line where the lead changes.
func curves(c report.Curves) (*plot.Plot, error) {
	p := plain(c.XAxis, c.YAxis)
	for i, curve := range c.Lines {
		if len(curve.X) != len(curve.Y) {
			return nil, fmt.Errorf("curve %q has %d places and %d values", curve.Name, len(curve.X), len(curve.Y))
		}
		points := make(plotter.XYs, len(curve.X))
		for k := range points {
			points[k] = plotter.XY{X: curve.X[k], Y: curve.Y[k]}
		}
		line, err := plotter.NewLine(points)
		if err != nil {
			return nil, err
		}
		line.Width, line.Dashes = vg.Length(0.8), dashes[i%len(dashes)]
		if i == 0 {
			line.Width = thick
		}
		p.Add(line)
		p.Legend.Add(curve.Name, line)
	}
	p.Y.Max *= roomForLegend
	var ticks plot.ConstantTicks
	for _, change := range c.Changes {
		upright, err := plotter.NewLine(plotter.XYs{{X: change.At, Y: p.Y.Min}, {X: change.At, Y: p.Y.Max / roomForLegend}})
		if err != nil {
			return nil, err
		}
		upright.Width = thin
		p.Add(upright)
		tick := plot.Tick{Value: change.At, Label: change.Text}
		if n := len(ticks); n > 0 && crowds(ticks[n-1], change, c.Ends) {
			tick.Label = "" // the text beside the picture has it
		}
		ticks = append(ticks, tick)
	}
	p.X.Tick.Marker = withEnds(ticks, c.Ends)
	return p, nil
}

// roomForLegend lifts the top of the y axis above what is drawn.
const roomForLegend = 1.7

// withEnds adds the ends of the axis to its ticks, where they do not crowd one.
func withEnds(ticks plot.ConstantTicks, ends [2]report.Change) plot.ConstantTicks {
	all := slices.Clone(ticks)
	for _, end := range ends {
		if !slices.ContainsFunc(ticks, func(t plot.Tick) bool { return crowds(t, end, ends) }) {
			all = append(all, plot.Tick{Value: end.At, Label: end.Text})
		}
	}
	return all
}

// crowds reports whether a place is so near a tick that their texts would touch.
func crowds(t plot.Tick, place report.Change, ends [2]report.Change) bool {
	const near = 0.12 // of the axis
	return math.Abs(t.Value-place.At) < near*(ends[1].At-ends[0].At)
}

// marks are the shapes of the members of a group.
var marks = []draw.GlyphDrawer{draw.CircleGlyph{}, draw.SquareGlyph{}, draw.TriangleGlyph{}}

// spans draws each group at a whole number of the x axis: an upright line from poor
// to good, a cross bar at the middle, a mark at the average.
func spans(s report.Spans) (*plot.Plot, error) {
	p := plain("", s.YAxis)
	var labels []string
	for i, group := range s.Group {
		labels = append(labels, group.Label)
		for k, span := range group.Members {
			x := float64(i) + apart(k, len(group.Members))
			if err := addSpan(p, x, span, marks[k%len(marks)]); err != nil {
				return nil, err
			}
		}
	}
	for k, name := range s.Names {
		mark, err := plotter.NewScatter(plotter.XYs{{}})
		if err != nil {
			return nil, err
		}
		mark.Shape, mark.Radius = marks[k%len(marks)], markRadius
		p.Legend.Add(name, mark)
	}
	p.NominalX(labels...)
	p.X.Min, p.X.Max = -half, float64(len(labels))-half
	p.Y.Max *= roomForLegend
	return p, nil
}

const (
	half       = 0.5
	markRadius = vg.Length(2.5)
)

// apart is how far member k of n stands from the middle of its group.
func apart(k, n int) float64 {
	const step = 0.25
	return step * (float64(k) - float64(n-1)/2)
}

func addSpan(p *plot.Plot, x float64, s report.Span, shape draw.GlyphDrawer) error {
	const bar = 0.06
	for _, ends := range []plotter.XYs{{{X: x, Y: s.Poor}, {X: x, Y: s.Good}}, {{X: x - bar, Y: s.Middle}, {X: x + bar, Y: s.Middle}}, {{X: x - bar, Y: s.Poor}, {X: x + bar, Y: s.Poor}}, {{X: x - bar, Y: s.Good}, {X: x + bar, Y: s.Good}}} {
		line, err := plotter.NewLine(ends)
		if err != nil {
			return err
		}
		line.Width = vg.Length(1)
		p.Add(line)
	}
	average, err := plotter.NewScatter(plotter.XYs{{X: x, Y: s.Average}})
	if err != nil {
		return err
	}
	average.Shape, average.Radius = shape, markRadius
	p.Add(average)
	return nil
}

// columns draws bars side by side: white, black, gray; a question mark where the
// value is not known.
func columns(c report.Columns) (*plot.Plot, error) {
	p := plain("", c.YAxis)
	grays := []color.Color{color.White, color.Black, color.Gray{Y: 160}}
	width := vg.Length(0.7) * (Width - vg.Inch/2) / vg.Length(max(1, len(c.Labels)*len(c.Names)))
	for k, values := range c.Values {
		known := make(plotter.Values, len(values))
		var unknown plotter.XYLabels
		for i, v := range values {
			if math.IsNaN(v) {
				unknown.XYs, unknown.Labels = append(unknown.XYs, plotter.XY{X: float64(i)}), append(unknown.Labels, "?")
				continue
			}
			known[i] = v
		}
		bars, err := plotter.NewBarChart(known, width)
		if err != nil {
			return nil, err
		}
		bars.Color, bars.LineStyle.Width = grays[k%len(grays)], thin
		bars.Offset = width * vg.Length(float64(k)-float64(len(c.Values)-1)/2)
		p.Add(bars)
		p.Legend.Add(c.Names[k], bars)
		if len(unknown.Labels) > 0 {
			labels, err := plotter.NewLabels(unknown)
			if err != nil {
				return nil, err
			}
			for i := range labels.TextStyle {
				labels.TextStyle[i].Font, labels.TextStyle[i].XAlign = p.X.Label.TextStyle.Font, draw.XCenter
			}
			labels.Offset.X = bars.Offset
			p.Add(labels)
		}
	}
	p.NominalX(c.Labels...)
	p.Y.Max *= roomForLegend
	return p, nil
}
