package chart

import (
	"fmt"
	"html"
	"math"
	"strings"

	"fencerow/io/show/report"
	"fencerow/program"
)

// SVG returns a drawing as one svg element, without prologue, fit to stand in a page.
// says is read to those who do not see it. An error means values
// that cannot be drawn, such as dots below zero.
func SVG(d report.Drawing, says string) (string, error) {
	c := &canvas{}
	c.width, c.height, _ = viewBox(d)
	var err error
	switch d := d.(type) {
	case report.Squares:
		squares(c, d)
	case report.Dots:
		err = dots(c, d)
	case report.PriceLine:
		err = priceLine(c, d)
	default:
		err = fmt.Errorf("no drawing for %T", d)
	}
	if err != nil {
		return "", fmt.Errorf("chart: %w", err)
	}
	return c.element(says), nil
}

// Size returns width and height of a drawing in points. Drawn at that size its text is
// of 9 points or a bit more; a page that draws all its pictures to one scale has nearly one
// size of text.
func Size(d report.Drawing) (width, height float64) {
	width, height, unit := viewBox(d)
	return width * unit, height * unit
}

// viewBox is the size of a drawing in its own units, and how many points one is.
func viewBox(d report.Drawing) (width, height, unit float64) {
	switch d := d.(type) {
	case report.Squares:
		width, height = squaresSize(d)
		return width, height, pixel
	case report.Dots:
		return acrossPx, dotsHeight(d), pixel
	case report.PriceLine:
		return acrossPx, priceLineHeight(d), pixel
	}
	return 0, 0, pixel
}

// Fills and grays. A program has the same fill in all drawings: PLC hatched, ARC-CO
// black. Hatching is drawn as lines: a browser would print patterns of its own coarsely.
const (
	white, black, hatched, ruled, netted = "white", "black", "hatched", "ruled", "netted"
	gray, dark                           = "#bbbbbb", "#888888"
)

// Widths of lines in points.
const (
	hair  = 0.4
	thin  = 0.6
	line  = 1.0
	thick = 2.0
)

// canvas collects a drawing; its text is written over all else.
type canvas struct {
	width, height float64
	shapes, texts strings.Builder
}

// element is the drawing as one svg element.
func (c *canvas) element(says string) string {
	return fmt.Sprintf(`<svg viewBox="0 0 %s %s" role="img" aria-label="%s">%s<g font-family="Liberation Sans, Arial, Helvetica, sans-serif" font-size="%s" stroke="white" stroke-width="2" stroke-linejoin="round" paint-order="stroke">%s</g></svg>`,
		number(c.width), number(c.height), html.EscapeString(says), c.shapes.String(), number(textSize), c.texts.String())
}

// number writes a coordinate to a tenth of a point.
func number(x float64) string {
	return strings.TrimSuffix(program.Text(x, 1), ".0")
}

func (c *canvas) rect(b box, fill string, border float64) {
	stroke := ""
	if border > 0 {
		stroke = fmt.Sprintf(` stroke="black" stroke-width="%s"`, number(border))
	}
	ink := fill
	if fill == hatched || fill == ruled || fill == netted {
		ink = white
	}
	fmt.Fprintf(&c.shapes, `<rect x="%s" y="%s" width="%s" height="%s" fill="%s"%s/>`, number(b.left), number(b.top), number(b.right-b.left), number(b.bottom-b.top), ink, stroke)
	switch fill {
	case hatched:
		c.hatch(b, 2.6, black, 0.9)
	case netted:
		c.slant(b, 1, 3.4, black, thin)
		c.slant(b, -1, 3.4, black, thin)
	case ruled:
		c.rule(b, 2, black, thin)
	}
}

// hatch fills a box with slanting lines so far apart, measured across and down.
func (c *canvas) hatch(b box, apart float64, color string, width float64) {
	c.slant(b, 1, apart, color, width)
}

// slant fills a box with lines along which x + way*y is the same, with way 1 or -1.
func (c *canvas) slant(b box, way, apart float64, color string, width float64) {
	top, bottom := min(way*b.top, way*b.bottom), max(way*b.top, way*b.bottom)
	var path strings.Builder
	for at := math.Ceil((b.left+top)/apart) * apart; at < b.right+bottom; at += apart {
		from, to := max(b.left, at-bottom), min(b.right, at-top)
		fmt.Fprintf(&path, "M%s,%sL%s,%s", number(from), number(way*(at-from)), number(to), number(way*(at-to)))
	}
	fmt.Fprintf(&c.shapes, `<path d="%s" stroke="%s" stroke-width="%s"/>`, path.String(), color, number(width))
}

// rule fills a box with level lines so far apart.
func (c *canvas) rule(b box, apart float64, color string, width float64) {
	for y := b.top + apart; y < b.bottom; y += apart {
		c.level(y, b.left, b.right, color, width)
	}
}

// stroke draws a line through points; dash is empty for an unbroken one.
func (c *canvas) stroke(points []point, color string, width float64, dash string) {
	if dash != "" {
		dash = fmt.Sprintf(` stroke-dasharray="%s"`, dash)
	}
	var path strings.Builder
	for i, p := range points {
		fmt.Fprintf(&path, "%c%s,%s", "ML"[min(i, 1)], number(p.x), number(p.y))
	}
	fmt.Fprintf(&c.shapes, `<path d="%s" fill="none" stroke="%s" stroke-width="%s"%s stroke-linejoin="round"/>`, path.String(), color, number(width), dash)
}

func (c *canvas) upright(x, from, to float64, color string, width float64, dash string) {
	c.stroke([]point{{x, from}, {x, to}}, color, width, dash)
}

func (c *canvas) level(y, from, to float64, color string, width float64) {
	c.stroke([]point{{from, y}, {to, y}}, color, width, "")
}

// triangle points down to a place.
func (c *canvas) triangle(tip point, half, tall float64) {
	fmt.Fprintf(&c.shapes, `<path d="M%s,%sL%s,%sH%sZ" fill="black"/>`, number(tip.x), number(tip.y), number(tip.x-half), number(tip.y-tall), number(tip.x+half))
}

// triangleUp points up to a place.
func (c *canvas) triangleUp(tip point, half, tall float64) { c.triangle(tip, half, -tall) }
