package chart

// Sizes of text in points, as on paper where a page has room for its pictures.
const (
	textSize = 9.0
	lineStep = 11.0
	ascent   = 7.0 // of a line of text above its baseline
	descent  = 2.2
)

// widths are those of the characters from space to tilde, in thousandths of the text
// size, measured in a browser in the first font of the page.
var widths = [...]float64{
	278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
	1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
	333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
}

// textWidth estimates the width of a text in points.
func textWidth(s string) (points float64) {
	const unknown = 667
	for _, c := range s {
		if i := int(c) - ' '; i >= 0 && i < len(widths) {
			points += widths[i]
		} else {
			points += unknown
		}
	}
	return points * textSize / 1000
}

// align is the side at which a text stands.
type align string

const (
	fromLeft align = "start"
	centered align = "middle"
	toRight  align = "end"
)

// label is a line of text; x is where its align says, y its baseline.
type label struct {
	text  string
	x, y  float64
	align align
}

// box is the place that a label takes.
func (l label) box() box {
	width, left := textWidth(l.text), l.x
	switch l.align {
	case centered:
		left -= width / 2
	case toRight:
		left -= width
	}
	return box{left, l.y - ascent, left + width, l.y + descent}
}

// kept moves a label sidewards until it lies between two places.
func (l label) kept(left, right float64) label {
	b := l.box()
	l.x += max(0, left-b.left) - max(0, b.right-right)
	return l
}

// box is a rectangle; y rises downwards.
type box struct{ left, top, right, bottom float64 }

func (b box) meets(o box) bool {
	return b.left < o.right && o.left < b.right && b.top < o.bottom && o.top < b.bottom
}

func (b box) within(o box) bool {
	return b.left >= o.left && b.right <= o.right && b.top >= o.top && b.bottom <= o.bottom
}

func (b box) grown(by float64) box {
	return box{b.left - by, b.top - by, b.right + by, b.bottom + by}
}

// point is a place of a drawing.
type point struct{ x, y float64 }

// nearest is the point of the box that is nearest to another.
func (b box) nearest(p point) point {
	return point{min(max(p.x, b.left), b.right), min(max(p.y, b.top), b.bottom)}
}

// crosses reports whether a straight line between two points touches the box: what is
// left of it between the box's sides is not empty.
func (b box) crosses(from, to point) bool {
	first, last := 0.0, 1.0
	cut := func(start, step, low, high float64) bool {
		if step == 0 {
			return start >= low && start <= high
		}
		enter, leave := (low-start)/step, (high-start)/step
		first, last = max(first, min(enter, leave)), min(last, max(enter, leave))
		return first <= last
	}
	return cut(from.x, to.x-from.x, b.left, b.right) && cut(from.y, to.y-from.y, b.top, b.bottom)
}
