package chart

import (
	"math"

	"fencerow/io/show/report"
)

// topAxis is where the frame of a drawing begins, below the name of its y axis;
// bottomAxis is the room for a row of text below it.
const (
	topAxis    = lineStep + 2
	bottomAxis = 12.0
	topText    = lineStep // room over the highest tick for a name
)

// spans draws for each group, side by side, a bar from poor to good, a line across at
// the middle and a circle at the average.
func spans(c *canvas, s report.Spans) {
	highest := 0.0
	for _, group := range s.Group {
		for _, m := range group.Members {
			if !math.IsNaN(m.Average) {
				highest = max(highest, m.Good, m.Average)
			}
		}
	}
	c.named(s.Names, func(c *canvas, top, headroom float64) (frame, []bar) {
		f := frameOf(c, s.YAxis, highest, top, headroom, c.height-bottomAxis)
		var bars []bar
		for i, group := range s.Group {
			f.under(i, len(s.Group), group.Label)
			for k, m := range group.Members {
				if math.IsNaN(m.Average) {
					continue
				}
				b := f.bar(i, len(s.Group), k, len(group.Members), m.Poor, m.Good)
				f.span(b, m)
				b.box.top, b.box.bottom = min(b.box.top, f.y(m.Average)-circleRadius), max(b.box.bottom, f.y(m.Average)+circleRadius)
				b.left, b.right = b.left-overBar, b.right+overBar
				bars = append(bars, b)
			}
		}
		return f, bars
	})
}

const (
	circleRadius = 2.2
	overBar      = 2.5 // how far the line at the middle reaches beyond its bar
)

// span draws one bar.
func (f frame) span(b bar, s report.Span) {
	f.rect(b.box, seriesFills[b.series%len(seriesFills)], thin)
	y := f.y(s.Middle)
	f.level(y, b.left, b.right, white, thick+line)
	f.level(y, b.left-overBar, b.right+overBar, black, line)
	f.circle((b.left+b.right)/2, f.y(s.Average), circleRadius, white)
}

// bar is what stands at one place of the x axis, of one series.
type bar struct {
	box
	series int
}

// bar is the place of member k of so many, in group i of so many, between two values.
func (f frame) bar(i, groups, k, members int, low, high float64) bar {
	const filled, ofStep, widest = 0.84, 0.75, 14
	step := min(filled*(f.right-f.left)/float64(groups*members), 2*widest)
	width := min(step*ofStep, widest)
	middle := f.groupAt(i, groups) + step*(float64(k)-float64(members-1)/2)
	return bar{box{middle - width/2, f.y(high), middle + width/2, f.y(low)}, k}
}

// groupAt is the middle of group i of so many.
func (f frame) groupAt(i, groups int) float64 {
	return f.left + (f.right-f.left)*(float64(i)+0.5)/float64(groups)
}

// under writes the label of group i below the axis; of many groups every second, every
// third, ... so that no two touch, the last one always.
func (f frame) under(i, groups int, text string) {
	const apart = 4
	every := 1
	for float64(every)*(f.right-f.left)/float64(groups) < textWidth(text)+apart {
		every++
	}
	if (groups-1-i)%every == 0 {
		f.write(label{text, f.groupAt(i, groups), f.bottom + ascent + 2.5, centered}.kept(0, f.width))
	}
}

// named draws with the names of the series over one of their bars each, or, where one
// does not fit, with a legend.
func (c *canvas) named(names []string, draw func(c *canvas, top, headroom float64) (frame, []bar)) {
	attempt := &canvas{width: c.width, height: c.height}
	f, bars := draw(attempt, topAxis, topText)
	var taken []box
	for k, name := range names {
		l, fits := f.over(name, k, bars, taken)
		if !fits {
			rows := c.legendRows(names, boxSampleWidth)
			draw(c, topAxis+float64(rows)*lineStep+3, 2)
			c.legend(names, 2*lineStep-2, boxSampleWidth, c.boxSample)
			return
		}
		attempt.write(l)
		taken = append(taken, l.box())
	}
	*c = canvas{width: c.width, height: c.height}
	c.shapes.WriteString(attempt.shapes.String())
	c.texts.WriteString(attempt.texts.String())
}

// over finds a place for a name over a bar of its series, not touching any other nor
// standing over its middle.
func (f frame) over(name string, series int, bars []bar, taken []box) (label, bool) {
	for _, b := range bars {
		if b.series != series || b.top >= f.bottom {
			continue
		}
		l := label{name, (b.left + b.right) / 2, b.top - descent - 1, centered}.kept(f.left+1, f.right)
		place, free := l.box().grown(0.5), true
		for _, other := range bars {
			middle := (other.left + other.right) / 2
			free = free && !place.meets(other.box) && (other.box == b.box || middle < place.left || middle > place.right)
		}
		for _, other := range taken {
			free = free && !place.grown(2).meets(other)
		}
		if free && place.top >= f.top {
			return l, true
		}
	}
	return label{}, false
}
