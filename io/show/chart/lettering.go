package chart

import (
	"fmt"
	"html"
	"strings"
)

// The drawings of a farm's sheet are laid out in pixels of a phone's page, the others in
// points. No text of theirs is smaller than small, which is 9 points and a bit on paper.
const (
	pixel    = 0.75  // points
	acrossPx = 330.0 // how wide they are, but for squares
	small    = 12.5
	strong   = 13.0 // of names
	large    = 18.0 // of counts
	lead     = 15.0 // from line to line
)

// The parts of a text's size that capitals rise over its baseline and tails hang below.
const capital, tail = 0.74, 0.22

// note is a line of text of a size of its own.
type note struct {
	text  string
	x, y  float64 // where its align says, and its baseline
	align align
	size  float64
	bold  bool
}

// width is an estimate, a hair too wide for bold text.
func (n *note) width() float64 {
	wide := textWidth(n.text) * n.size / textSize
	if n.bold {
		const wider = 0.056 // a letter, of the size
		for _, c := range n.text {
			if !strings.ContainsRune("0123456789 .,-$", c) {
				wide += wider * n.size
			}
		}
	}
	return wide
}

// box is the place that it takes.
func (n *note) box() box {
	width, left := n.width(), n.x
	switch n.align {
	case centered:
		left -= width / 2
	case toRight:
		left -= width
	}
	return box{left, n.y - capital*n.size, left + width, n.y + tail*n.size}
}

// kept moves it sidewards until it lies between two places.
func (n *note) kept(left, right float64) *note {
	b := n.box()
	n.x += max(0, left-b.left) - max(0, b.right-right)
	return n
}

func (c *canvas) note(n *note) {
	weight := ""
	if n.bold {
		weight = ` font-weight="bold"`
	}
	fmt.Fprintf(&c.texts, `<text x="%s" y="%s" text-anchor="%s" font-size="%s"%s>%s</text>`, number(n.x), number(n.y), n.align, number(n.size), weight, html.EscapeString(n.text))
}

// spread returns places near the wanted ones, in their order, at which things of such
// widths do not touch and lie between left and right, if they can: the sum of the squares
// of the moves is least.
func spread(wanted, widths []float64, apart, left, right float64) []float64 {
	type pool struct{ sum, n float64 } // things that touch
	offsets := make([]float64, len(wanted))
	var pools []pool
	for i, x := range wanted {
		if i > 0 {
			offsets[i] = offsets[i-1] + (widths[i-1]+widths[i])/2 + apart
		}
		pools = append(pools, pool{x - offsets[i], 1})
		for k := len(pools) - 1; k > 0 && pools[k-1].sum/pools[k-1].n > pools[k].sum/pools[k].n; k-- {
			pools[k-1] = pool{pools[k-1].sum + pools[k].sum, pools[k-1].n + pools[k].n}
			pools = pools[:k]
		}
	}
	var places []float64
	for _, p := range pools {
		for range int(p.n) {
			places = append(places, p.sum/p.n)
		}
	}
	for i := range places {
		last := len(places) - 1
		places[i] = max(min(places[i], right-widths[last]/2-offsets[last]), left+widths[0]/2) + offsets[i]
	}
	return places
}

// fillOf is the fill of a kind of outcome by the first word of its name: a program has the
// same in all drawings.
func fillOf(kind string) string {
	first, _, _ := strings.Cut(kind, " ")
	switch strings.Trim(first, ",:") {
	case "ARC-CO":
		return black
	case "PLC":
		return hatched
	case "both":
		return netted
	case "ARC-IC", "SCO", "ECO", "STAX":
		return dark
	}
	return white
}
