package chart

import (
	"math"

	"fencerow/program"
)

// tick is a place of an axis with its text.
type tick struct {
	at   float64
	text string
}

// mostSteps is how many steps an axis has at most.
const mostSteps = 5

// ticks are three to five steps of 1, 2 or 5 times a power of ten, from zero to the
// first that is not below the highest value.
func ticks(highest float64) (all []tick) {
	if !(highest > 0) {
		highest = 1
	}
	power := int(math.Floor(math.Log10(highest))) - 1
	factor := 1.0
	for highest > mostSteps*factor*math.Pow10(power) {
		switch factor {
		case 1:
			factor = 2
		case 2:
			factor = 5
		default:
			factor, power = 1, power+1
		}
	}
	step := factor * math.Pow10(power)
	for k := 0; k == 0 || all[k-1].at < highest; k++ {
		at := float64(k) * step
		if k == 0 {
			all = append(all, tick{0, "0"})
			continue
		}
		all = append(all, tick{at, program.Text(at, max(0, -power))})
	}
	return all
}

// frame is the part of a drawing between its axes.
type frame struct {
	*canvas
	box
	scale float64 // points of a unit of the y axis
}

// frameOf draws the y axis with its name above it and light lines at its ticks.
// headroom is left free over the highest tick.
func frameOf(c *canvas, name string, highest, top, headroom, bottom float64) frame {
	all := ticks(highest)
	left := 0.0
	for _, t := range all {
		left = max(left, textWidth(t.text))
	}
	const gap = 4
	f := frame{canvas: c, box: box{left + gap, top, c.width - 1, bottom}}
	f.scale = (bottom - top - headroom) / all[len(all)-1].at
	c.write(label{name, 0, ascent + 0.5, fromLeft})
	for _, t := range all {
		y := f.y(t.at)
		if t.at > 0 {
			c.level(y, f.left, f.right, gray, hair)
		}
		c.write(label{t.text, f.left - gap, y + ascent/2 - 0.5, toRight})
	}
	c.level(bottom, f.left, f.right, black, thin)
	return f
}

func (f frame) y(value float64) float64 { return f.bottom - value*f.scale }

// legend names things by a sample before each, in rows from a baseline downwards.
func (c *canvas) legend(names []string, baseline, sampleWidth float64, sample func(i int, x, y float64)) {
	x, y := 0.0, baseline
	for i, name := range names {
		const gap, apart = 3, 9
		width := sampleWidth + gap + textWidth(name)
		if x > 0 && x+width > c.width {
			x, y = 0, y+lineStep
		}
		sample(i, x, y)
		c.write(label{name, x + sampleWidth + gap, y, fromLeft})
		x += width + apart
	}
}

// legendRows is the number of rows that a legend takes.
func (c *canvas) legendRows(names []string, sampleWidth float64) int {
	count := &canvas{width: c.width}
	rows, last := 0, -1.0
	count.legend(names, 0, sampleWidth, func(_ int, _, y float64) {
		if y != last {
			rows, last = rows+1, y
		}
	})
	return rows
}

// boxSample draws the fills of things side by side in a legend.
func (c *canvas) boxSample(i int, x, y float64) {
	c.rect(box{x + 0.5, y - 6.5, x + boxSampleWidth, y + 0.5}, seriesFills[i%len(seriesFills)], thin)
}

const boxSampleWidth = 8
