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
