package chart

import (
	"fmt"
	"math"

	"fencerow/io/show/report"
)

// dashes tell the curves apart, beside the first one's width.
var dashes = []string{"", "6,3", "", "1.2,2"}

// curves draws lines with their names at them, light hatching where most prices lie, a
// triangle at the price in use, and an upright line where the lead changes.
func curves(c *canvas, d report.Curves) error {
	for _, l := range d.Lines {
		if len(l.X) != len(l.Y) {
			return fmt.Errorf("curve %q has %d places and %d values", l.Name, len(l.X), len(l.Y))
		}
	}
	for _, headroom := range []float64{4, 14, 28} { // over the highest tick, for names
		attempt := &canvas{width: c.width, height: c.height}
		if s := sheetOf(attempt, d, topAxis+lineStep+2, headroom); s.nameAll(d.Lines) {
			c.shapes.WriteString(attempt.shapes.String())
			c.texts.WriteString(attempt.texts.String())
			return nil
		}
	}
	var names []string
	for _, l := range d.Lines {
		names = append(names, l.Name)
	}
	const sample = 22
	rows := c.legendRows(names, sample)
	sheetOf(c, d, topAxis+lineStep*float64(1+rows)+5, 4)
	c.legend(names, 2*lineStep-2, sample, func(i int, x, y float64) {
		c.curve([]point{{x, y - 3}, {x + sample, y - 3}}, i)
	})
	return nil
}

// sheet is a frame with curves in it.
type sheet struct {
	frame
	low, wide float64   // first value of the x axis, points of a unit
	lines     [][]point // of each curve
	uprights  []float64 // where lines stand upright
	taken     []box     // by names
}

// sheetOf draws all but the names of the curves.
func sheetOf(c *canvas, d report.Curves, top, headroom float64) *sheet {
	highest := 0.0
	low, high := d.Ends[0].At, d.Ends[1].At
	for _, l := range d.Lines {
		for i := range l.X {
			highest, low, high = max(highest, l.Y[i]), min(low, l.X[i]), max(high, l.X[i])
		}
	}
	s := &sheet{frame: frameOf(c, d.YAxis, highest, top, headroom, c.height-2*bottomAxis), low: low}
	if high > low {
		s.wide = (s.right - s.left) / (high - low)
	}
	s.band(d.Band)
	for i, l := range d.Lines {
		points := make([]point, len(l.X))
		for k := range points {
			points[k] = point{s.x(l.X[k]), s.y(l.Y[k])}
		}
		s.lines = append(s.lines, points)
		c.curve(points, i)
	}
	for _, change := range d.Changes {
		s.uprights = append(s.uprights, s.x(change.At))
		c.upright(s.x(change.At), s.top, s.bottom+3, black, thin, "")
	}
	s.places(d)
	c.write(label{d.XAxis, (s.left + s.right) / 2, c.height - descent - 0.3, centered})
	return s
}

func (c *canvas) curve(points []point, i int) {
	width := line
	if i == 0 {
		width = thick
	}
	c.stroke(points, black, width, dashes[i%len(dashes)])
}

func (s *sheet) x(value float64) float64 { return s.left + (value-s.low)*s.wide }

// band hatches where most prices lie and marks the price in use, named above.
func (s *sheet) band(b *report.Band) {
	if b == nil {
		return
	}
	within := func(x float64) float64 { return min(max(x, s.left), s.right) }
	if left, right := within(s.x(b.Low)), within(s.x(b.High)); right > left {
		s.hatch(box{left, s.top, right, s.bottom}, 5, dark, hair)
	}
	x := within(s.x(b.At))
	const half, tall = 3.0, 5.0
	s.triangle(point{x, s.top}, half, tall)
	s.write(label{b.Text, x, s.top - tall - descent, centered}.kept(s.left, s.right))
}

// places writes the prices at which the lead changes below the axis, and the ends of
// the axis where they do not touch one.
func (s *sheet) places(d report.Curves) {
	var wanted []label
	for _, change := range d.Changes {
		wanted = append(wanted, label{change.Text, s.x(change.At), s.bottom + ascent + 3, centered})
	}
	placed := s.row(wanted, nil)
	for _, end := range d.Ends {
		wanted = append(wanted[:0:0], label{end.Text, s.x(end.At), s.bottom + ascent + 3, centered})
		placed = append(placed, s.row(wanted, placed)...)
	}
	for _, l := range placed {
		s.write(l)
	}
}

// row places labels beside taken ones: those that would touch stand at one side of
// their places, or are left out, as few as possible; the text beside the picture has
// them.
func (s *sheet) row(wanted, taken []label) []label {
	if len(wanted) == 0 {
		return nil
	}
	var best []label
	least := math.Inf(1)
	for i, side := range []align{centered, toRight, fromLeft} {
		l := wanted[0]
		l.align = side
		if side != centered {
			l.x += map[align]float64{toRight: 1, fromLeft: -1}[side]
		}
		l = l.kept(s.left-3, s.width)
		if touches(l.box().grown(1.5), taken) {
			continue
		}
		rest := append([]label{l}, s.row(wanted[1:], append(taken[:len(taken):len(taken)], l))...)
		if cost := 10*float64(len(wanted)-len(rest)) + float64(min(i, 1)) + sides(rest[1:]); cost < least {
			best, least = rest, cost
		}
	}
	if without := s.row(wanted[1:], taken); 10*float64(len(wanted)-len(without))+sides(without) < least {
		best = without
	}
	return best
}

func sides(labels []label) (moved float64) {
	for _, l := range labels {
		if l.align != centered {
			moved++
		}
	}
	return moved
}

func touches(b box, taken []label) bool {
	for _, l := range taken {
		if b.meets(l.box()) {
			return true
		}
	}
	return false
}
