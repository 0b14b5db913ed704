package chart

import (
	"fmt"
	"math"
	"slices"

	"fencerow/io/show/report"
)

// A line of prices in pixels: from above the price in use, the bar of 8 of 10 outcomes,
// the band with who is ahead, and below it the prices where the lead changes and the names
// that the band has no room for.
const (
	barMiddle   = 25.0 // below the row of the price in use
	bandTop     = 34.0
	bandTall    = 25.0
	stripTall   = 8.0 // of the band, filled by who is ahead
	outcomes    = "8 of 10 outcomes"
	leaderTall  = 5.0
	topBaseline = 11.5
)

// pricePlan is where everything of a PriceLine stands.
type pricePlan struct {
	report.PriceLine
	low, scale, left float64 // the lowest price, pixels of a unit, and where it stands
	down             float64 // how far all is below its usual place
	top              []*note // over the band
	below            []tag
	unit             *note
	height           float64
}

// segment is the place of segment i between its ends.
func (p *pricePlan) segment(i int) (from, to float64) {
	from, to = 0.5, acrossPx-0.5
	if i > 0 {
		from = p.x(p.Segments[i-1].To)
	}
	if i < len(p.Segments)-1 {
		to = p.x(p.Segments[i].To)
	}
	return from, to
}

func (p *pricePlan) x(price float64) float64 { return p.left + (price-p.low)*p.scale }

// hasBar reports whether the prices between which most outcomes lie are known.
func (p *pricePlan) hasBar() bool { return p.LowText != "" && p.HighText != "" && p.Low < p.High }

func planPrices(d report.PriceLine) *pricePlan {
	p := &pricePlan{PriceLine: d}
	p.fit()
	p.over()
	p.under()
	return p
}

// fit chooses the range: all that is marked, and room at both ends for its texts and for
// the names of the first and last segment, if the others keep theirs.
func (p *pricePlan) fit() {
	var marked []float64
	for i, s := range p.Segments {
		if i < len(p.Segments)-1 {
			marked = append(marked, s.To)
		}
	}
	least, step, steps := 16.0, 7.0, 12
	room := [2]float64{least, least}
	if p.hasBar() {
		marked = append(marked, p.Low, p.High)
		for i, text := range []string{p.LowText, p.HighText} {
			room[i] = max(least, p.price(text, 0, centered).width()+2*pixelsApart)
		}
	}
	if p.AtText != "" {
		marked = append(marked, p.At)
	}
	low, high := math.Inf(1), math.Inf(-1)
	for _, price := range marked {
		low, high = min(low, price), max(high, price)
	}
	best := -1
	for total := range 2*steps - 1 {
		for more := max(0, total-steps+1); more <= min(total, steps-1); more++ {
			try := *p
			try.low, try.left = low, room[0]+float64(total-more)*step
			switch right := acrossPx - room[1] - float64(more)*step; {
			case len(marked) == 0:
				try.low = 0
			case high == low:
				try.left = (try.left + right) / 2
			default:
				try.scale = max(0, right-try.left) / (high - low)
			}
			if n := try.namesInside(); n > best {
				best, *p = n, try
			}
		}
	}
}

// namesInside is how many names the band has room for.
func (p *pricePlan) namesInside() (n int) {
	for i := range p.Segments {
		if p.inside(i) {
			n++
		}
	}
	return n
}

func (p *pricePlan) inside(i int) bool {
	from, to := p.segment(i)
	return p.name(i).width() <= to-from-pixelsApart
}

// name is the name of segment i in its middle.
func (p *pricePlan) name(i int) *note {
	from, to := p.segment(i)
	return &note{text: p.Segments[i].Ahead, x: (from + to) / 2, y: p.down + bandTop + 12.8, align: centered, size: small}
}

func (p *pricePlan) price(text string, x float64, side align) *note {
	return &note{text: text, x: x, y: p.down + barMiddle + small*capital/2, align: side, size: small}
}

// over places what is above the band: the price in use over its mark, the two ends of the
// bar beside it, and what the bar is, where there is room: before it, behind it, or above.
func (p *pricePlan) over() {
	at := (&note{text: "price used " + p.AtText, x: p.x(p.At), y: topBaseline, align: centered, size: strong, bold: true}).kept(0, acrossPx)
	if !p.hasBar() {
		if p.AtText != "" {
			p.top = []*note{at}
		}
		return
	}
	low, high := p.price(p.LowText, p.x(p.Low)-pixelsApart, toRight), p.price(p.HighText, p.x(p.High)+pixelsApart, fromLeft)
	if p.AtText != "" {
		mark := box{p.x(p.At) - markHalf - 2, low.y - small, p.x(p.At) + markHalf + 2, low.y}
		if mark.meets(low.box()) {
			low.x = mark.left
		}
		if mark.meets(high.box()) {
			high.x = mark.right
		}
	}
	low, high = low.kept(0, acrossPx), high.kept(0, acrossPx)
	before := p.price(outcomes, low.box().left-pixelsApart, toRight)
	behind := p.price(outcomes, high.box().right+pixelsApart, fromLeft)
	above := &note{text: "bar: " + outcomes, y: topBaseline, align: centered, size: small}
	p.top = []*note{low, high}
	mark := p.x(p.At)
	switch {
	case before.box().left >= 0 && (p.AtText == "" || mark > low.x):
		p.top = append(p.top, before)
	case behind.box().right <= acrossPx && (p.AtText == "" || mark < high.x):
		p.top = append(p.top, behind)
	default:
		p.aboveBar(above, at)
	}
	if p.AtText != "" {
		p.top = append(p.top, at)
	}
}

// aboveBar puts what the bar is beside the price in use, or in a row of its own over it.
func (p *pricePlan) aboveBar(text, at *note) {
	text.x = (p.x(p.Low) + p.x(p.High)) / 2
	const apart = 2 * pixelsApart
	switch {
	case p.AtText == "":
		text = text.kept(0, acrossPx)
	case text.width()+at.width()+apart > acrossPx:
		p.down = lead
		at.y += lead
		for i := range p.top {
			p.top[i].y += lead
		}
		text = text.kept(0, acrossPx)
	case text.x <= p.x(p.At):
		places := spread([]float64{text.x, at.box().left + at.width()/2}, []float64{text.width(), at.width()}, apart, 0, acrossPx)
		text.x, at.x, at.align = places[0], places[1], centered
	default:
		places := spread([]float64{at.box().left + at.width()/2, text.x}, []float64{at.width(), text.width()}, apart, 0, acrossPx)
		at.x, at.align, text.x = places[0], centered, places[1]
	}
	p.top = append(p.top, text)
}

// under places the rows below the band, and the unit at an end of the last where it fits.
func (p *pricePlan) under() {
	var all []tag
	for i, s := range p.Segments {
		if from, to := p.segment(i); !p.inside(i) {
			all = append(all, tag{text: s.Ahead, from: (from + to) / 2, name: true})
		}
		if i < len(p.Segments)-1 {
			all = append(all, tag{text: s.ToText, from: p.x(s.To)})
		}
	}
	bottom := p.down + bandTop + bandTall
	var rows int
	p.below, rows = hang(all)
	step := leaderTall + lead - 1
	p.height = bottom + float64(rows)*step + 2
	if p.Unit != "" {
		p.placeUnit(bottom+float64(rows)*step-3, rows)
	}
}

// placeUnit puts the unit at an end of the uppermost row or of the last below the band,
// whose baseline is last, or in a row of its own.
func (p *pricePlan) placeUnit(last float64, rows int) {
	taken := slices.Clone(p.top)
	for _, t := range p.below {
		if t.row == rows-1 {
			taken = append(taken, t.label(p.down+bandTop+bandTall))
		}
	}
	p.unit = &note{text: p.Unit, x: 0, y: topBaseline, align: fromLeft, size: small}
	for _, y := range []float64{topBaseline, last, last + lead} {
		if y == last && rows == 0 {
			continue
		}
		for _, side := range []align{fromLeft, toRight} {
			if p.unit.y, p.unit.align, p.unit.x = y, side, 0; side == toRight {
				p.unit.x = acrossPx
			}
			wide := p.unit.box()
			wide.left, wide.right = wide.left-2*pixelsApart, wide.right+2*pixelsApart
			if !slices.ContainsFunc(taken, func(n *note) bool { return n.box().meets(wide) }) && (y != last+lead || side == toRight) {
				p.height = max(p.height, y+5)
				return
			}
		}
	}
}

func priceLineHeight(d report.PriceLine) float64 { return planPrices(d).height }

// priceLine draws the plan.
func priceLine(c *canvas, d report.PriceLine) error {
	if err := checkPrices(d); err != nil {
		return err
	}
	p := planPrices(d)
	p.band(c)
	middle := p.down + barMiddle
	if p.hasBar() {
		const thickness, cap = 5.0, 5.5
		low, high := p.x(p.Low), p.x(p.High)
		c.level(middle, low, high, "#555555", thickness)
		c.upright(low, middle-cap, middle+cap, black, 1.6, "")
		c.upright(high, middle-cap, middle+cap, black, 1.6, "")
	}
	if p.AtText != "" {
		x := p.x(p.At)
		c.stroke([]point{{x - markHalf, middle - 9}, {x, p.down + bandTop}, {x + markHalf, middle - 9}}, white, 3, "")
		c.triangle(point{x, p.down + bandTop}, markHalf, p.down+bandTop-middle+9)
	}
	for _, n := range p.top {
		c.note(n)
	}
	c.hung(p.below, p.down+bandTop+bandTall)
	if p.Unit != "" {
		c.note(p.unit)
	}
	return nil
}

const markHalf = 5.5 // of the mark of the price in use, across

// band draws the segments: white, with their names, over a strip in the fill of who is
// ahead.
func (p *pricePlan) band(c *canvas) {
	top, bottom := p.down+bandTop, p.down+bandTop+bandTall
	for i, s := range p.Segments {
		from, to := p.segment(i)
		c.rect(box{from, top, to, bottom}, white, line)
		c.rect(box{from, bottom - stripTall, to, bottom}, fillOf(s.Ahead), line)
		if p.inside(i) {
			c.note(p.name(i))
		}
	}
}

func checkPrices(d report.PriceLine) error {
	if len(d.Segments) == 0 {
		return fmt.Errorf("a line of prices without segments")
	}
	last := math.Inf(-1)
	for i, s := range d.Segments[:len(d.Segments)-1] {
		if !(s.To >= last) || math.IsInf(s.To, 0) {
			return fmt.Errorf("segment %d, %q, ends at %g, want a price not below %g", i+1, s.Ahead, s.To, last)
		}
		last = s.To
	}
	for _, price := range []float64{d.At, d.Low, d.High} {
		if math.IsNaN(price) || math.IsInf(price, 0) {
			return fmt.Errorf("a line of prices with %g", price)
		}
	}
	return nil
}
