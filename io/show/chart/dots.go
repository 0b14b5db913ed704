package chart

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/program"
)

// The dots of several programs, one below another on one axis, in pixels. Those that pay
// nothing stand in columns of five at the left, the others over the axis.
const (
	axisLeft, axisRight = 92.0, 328.0
	zeroRows            = 5
	tallestStack        = 50.0
	underAxis           = lead // of the row with the average
	nameRoom            = 16.0
)

// pitches are the distances of dots, from the largest. The first is taken at which no dot
// stands farther than strays from its place, where too many are alike for one stack.
var pitches = []float64{6.2, 5.6, 5, 4.4, 3.8, 3.4}

const strays = 9.0

// dotPlan is where everything of a Dots stands.
type dotPlan struct {
	pitch, scale float64 // pixels between dots, and of a dollar
	rows         []dotRow
	bottom       float64 // the last axis
	height       float64
}

// dotRow is one program: how many dots pay nothing, the stacks over the axis, and its axis.
type dotRow struct {
	report.ProgramDots
	zeros  int
	stacks []int
	axis   float64 // y
}

func planDots(d report.Dots) *dotPlan {
	p := &dotPlan{}
	highest := 0.0
	for _, one := range d {
		for _, v := range append([]float64{one.Most, one.Average}, one.Values...) {
			if !math.IsNaN(v) && !math.IsInf(v, 0) {
				highest = max(highest, v)
			}
		}
	}
	for _, p.pitch = range pitches {
		columns := int((axisRight - axisLeft) / p.pitch)
		if p.scale = 0; highest > 0 {
			p.scale = float64(columns) * p.pitch / highest
		}
		strayed := 0.0
		p.rows = nil
		for _, one := range d {
			row, far := p.stack(one, columns)
			p.rows, strayed = append(p.rows, row), max(strayed, far)
		}
		if strayed <= strays {
			break
		}
	}
	p.settle()
	return p
}

// stack puts the dots of a program into columns, each at its value or in the nearest column
// that is not full, and none beyond the most that the program can pay if the others have
// room; far is how far the one farthest off stands from its own.
func (p *dotPlan) stack(one report.ProgramDots, columns int) (row dotRow, far float64) {
	full := int(tallestStack / p.pitch)
	row = dotRow{ProgramDots: one, stacks: make([]int, columns)}
	column := func(v float64) int { return max(0, min(columns-1, int(v*p.scale/p.pitch))) }
	last := column(max(one.Most, slices.Max(append([]float64{0}, one.Values...))))
	for _, v := range one.Values {
		if paysNothing(v) {
			row.zeros++
			continue
		}
		own := column(v)
		at := row.free(own, last, full)
		if at < 0 {
			at = row.free(own, columns-1, full)
		}
		row.stacks[at]++
		far = max(far, math.Abs(float64(at-own))*p.pitch)
	}
	return row, far
}

// free is the nearest column up to the last that is not full, -1 if all are.
func (r *dotRow) free(own, last, full int) int {
	for away := range r.stacks {
		if at := own - away; at >= 0 && r.stacks[at] < full {
			return at
		}
		if at := own + away; at <= last && r.stacks[at] < full {
			return at
		}
	}
	return -1
}

// paysNothing is so for what rounds to no cents.
func paysNothing(v float64) bool { return program.Cent(v) == 0 }

// settle puts the axes as high as names, stacks and the averages of the row above allow.
// A name stands beside the average of the row above, or, if it is long, below it.
func (p *dotPlan) settle() {
	above := 0.0 // the lower end of the row above
	for i := range p.rows {
		row := &p.rows[i]
		tallest := 0
		for _, n := range row.stacks {
			tallest = max(tallest, n)
		}
		beside := above
		if i > 0 && row.name().width() < axisLeft-pixelsApart {
			beside -= underAxis
		}
		row.axis = max(above+float64(tallest)*p.pitch+2, beside+nameRoom+zeroRows*p.pitch)
		above = row.axis + underAxis + 1
		p.bottom = row.axis
	}
	p.height = p.bottom + 3*lead + 2
}

const pixelsApart = 6.0 // between texts

// name is the name of a row without its height.
func (r *dotRow) name() *note {
	return &note{text: r.Name, x: 0, align: fromLeft, size: strong, bold: true}
}

func dotsHeight(d report.Dots) float64 { return planDots(d).height }

// dots draws the plan.
func dots(c *canvas, d report.Dots) error {
	if err := checkDots(d); err != nil {
		return err
	}
	p := planDots(d)
	p.ticks(c)
	for i := range p.rows {
		row := &p.rows[i]
		c.level(row.axis, 0, axisLeft-14, black, thin)
		c.level(row.axis, axisLeft, axisRight, black, thin)
		p.dots(c, row)
		name := row.name()
		name.y = row.axis - zeroRows*p.pitch - 5
		c.note(name)
		left := 0.0
		if i+1 < len(p.rows) {
			if next := p.rows[i+1].name().width() + pixelsApart; next < axisLeft {
				left = next
			}
		}
		p.mark(c, row, left)
	}
	return nil
}

func checkDots(d report.Dots) error {
	if len(d) == 0 {
		return fmt.Errorf("dots of no program")
	}
	for _, one := range d {
		n := len(one.Values)
		if n == 0 || 100%n != 0 || n != len(d[0].Values) {
			return fmt.Errorf("dots of %q: %d values, want as many as the first program has and a divisor of 100", one.Name, n)
		}
		for _, v := range append([]float64{one.Average, one.Most}, one.Values...) {
			if !(v >= 0) || math.IsInf(v, 0) {
				return fmt.Errorf("dots of %q: %g is not an amount from 0 up", one.Name, v)
			}
		}
	}
	return nil
}

// dots draws those of a row: empty where nothing is paid, else by the program's fill, full
// or a ring with a slanting line.
func (p *dotPlan) dots(c *canvas, row *dotRow) {
	radius := p.pitch/2 - 0.5
	var slants strings.Builder
	circle := func(column float64, k int, left float64) (x, y float64) {
		x, y = left+(column+0.5)*p.pitch, row.axis-1-(float64(k)+0.5)*p.pitch
		fmt.Fprintf(&c.shapes, `<circle cx="%s" cy="%s" r="%s"/>`, number(x), number(y), number(radius))
		return x, y
	}
	fmt.Fprintf(&c.shapes, `<g fill="white" stroke="%s" stroke-width="0.8">`, dark)
	for k := range row.zeros {
		circle(float64(k/zeroRows), k%zeroRows, 0)
	}
	c.shapes.WriteString("</g>")
	fill := fillOf(row.Name)
	ink := fill
	if fill != black && fill != dark {
		ink = white
	}
	fmt.Fprintf(&c.shapes, `<g fill="%s" stroke="black" stroke-width="1">`, ink)
	for column, n := range row.stacks {
		for k := range n {
			x, y := circle(float64(column), k, axisLeft)
			if reach := radius * math.Sqrt2 / 2; fill == hatched {
				fmt.Fprintf(&slants, "M%s,%sL%s,%s", number(x-reach), number(y+reach), number(x+reach), number(y-reach))
			}
		}
	}
	c.shapes.WriteString("</g>")
	if slants.Len() > 0 {
		fmt.Fprintf(&c.shapes, `<path d="%s" stroke="black" stroke-width="1"/>`, slants.String())
	}
}

// at is the place of a value on the axis.
func (p *dotPlan) at(value float64) float64 { return axisLeft + value*p.scale }

// mark writes below a row's axis, right of a place, its average, at a triangle, and the most
// it can pay, at a tick: each at the right or left of its mark, whichever is free, or both at
// the triangle; where neither has room, the average alone.
func (p *dotPlan) mark(c *canvas, row *dotRow, left float64) {
	const half, tall, tick = 3.5, 6.5, 11.0
	from, to := p.at(row.Average), p.at(row.Most)
	c.triangleUp(point{from, row.axis + 1.5}, half, tall)
	triangle, line := box{from - half - 1, 0, from + half + 1, p.height}, box{to - 1, 0, to + 1, p.height}
	free := func(n *note, taken ...box) bool {
		b := n.box()
		return b.left >= left && b.right <= acrossPx && !slices.ContainsFunc(taken, b.meets)
	}
	average, sides := "average "+row.AverageText, []align{fromLeft, toRight}
	for _, side := range []align{toRight, fromLeft} {
		m := row.beside("most: "+row.MostText, to, side)
		for _, other := range sides {
			if a := row.beside(average, from, other); row.MostText != "" && free(m, triangle) && free(a, m.box().grown(pixelsApart/2), line) {
				c.upright(to, row.axis, row.axis+tick, black, 1.6, "")
				c.note(a)
				c.note(m)
				return
			}
		}
	}
	for _, text := range []string{average + ", most " + row.MostText, average} {
		for _, side := range sides {
			if a := row.beside(text, from, side); free(a) && (text == average || row.MostText != "") {
				if text != average {
					c.upright(to, row.axis, row.axis+tick/3, black, 1.6, "")
				}
				c.note(a)
				return
			}
		}
	}
	c.note(row.beside(average, from, fromLeft).kept(left, acrossPx))
}

// beside is a text below the axis at one side of a mark.
func (r *dotRow) beside(text string, mark float64, side align) *note {
	away := 6.0
	if side == toRight {
		away = -away
	}
	return &note{text: text, x: mark + away, y: r.axis + 12, align: side, size: small}
}

// ticks writes the axis below the rows, with light lines up through them, and what a dot is.
func (p *dotPlan) ticks(c *canvas) {
	y := p.bottom + underAxis + lead - 3
	nothing := &note{text: "pays nothing", x: 0, y: y, align: fromLeft, size: small}
	c.note(nothing)
	top, taken := p.rows[0].axis-zeroRows*p.pitch-nameRoom+1, nothing.box().right
	for _, t := range ticks(p.highest()) {
		x := p.at(t.at)
		if x > axisRight+1 || t.at > 0 && p.scale == 0 {
			break
		}
		c.upright(x, max(0, top), p.bottom, gray, hair, "")
		n := (&note{text: "$" + grouped(t.text), x: x, y: y, align: centered, size: small}).kept(0, acrossPx)
		if n.box().left > taken+pixelsApart {
			c.note(n)
			taken = n.box().right
		}
	}
	one := 100 / len(p.rows[0].Values)
	c.note(&note{text: fmt.Sprintf("one dot: %d of 100 outcomes", one), x: 0, y: y + lead, align: fromLeft, size: small})
	c.note(&note{text: "dollars per base acre", x: acrossPx, y: y + lead, align: toRight, size: small})
}

// highest is the value at the right end of the axis.
func (p *dotPlan) highest() float64 {
	if p.scale == 0 {
		return 0
	}
	return (axisRight - axisLeft) / p.scale
}

// grouped sets commas between the thousands of a whole number.
func grouped(text string) string {
	whole, _, _ := strings.Cut(text, ".")
	for i := len(whole) - 3; i > 0; i -= 3 {
		text = text[:i] + "," + text[i:]
	}
	return text
}
