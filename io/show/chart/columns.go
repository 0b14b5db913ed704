package chart

import (
	"fmt"
	"math"

	"fencerow/io/show/report"
)

// columns draws bars side by side; a question mark where the value is not known.
func columns(c *canvas, d report.Columns) error {
	highest := 0.0
	for k, values := range d.Values {
		if len(values) != len(d.Labels) {
			return fmt.Errorf("columns %d have %d values at %d places", k+1, len(values), len(d.Labels))
		}
		for _, v := range values {
			if !math.IsNaN(v) {
				highest = max(highest, v)
			}
		}
	}
	c.named(d.Names, func(c *canvas, top, headroom float64) (frame, []bar) {
		f := frameOf(c, d.YAxis, highest, top, headroom, c.height-bottomAxis)
		var bars []bar
		for i, text := range d.Labels {
			f.under(i, len(d.Labels), text)
			for k, values := range d.Values {
				v := values[i]
				b := f.bar(i, len(d.Labels), k, len(d.Values), 0, v)
				if math.IsNaN(v) {
					l := label{"?", (b.left + b.right) / 2, f.bottom - descent, centered}
					f.write(l)
					b.box, b.series = l.box(), unknown
				} else {
					f.rect(b.box, seriesFills[k%len(seriesFills)], thin)
				}
				bars = append(bars, b)
			}
		}
		return f, bars
	})
	return nil
}

// unknown is no series: a place without value.
const unknown = -1
