package chart

import (
	"fmt"
	"html"
	"strings"

	"fencerow/io/show/report"
)

// A bar of 100 squares: rows filled from the top, left to right.
const (
	squareSide, squaresAcross = 10, 25
	legendLine                = 16
)

// fills are the patterns of the kinds, in their order: white, black, hatched, dotted.
var fills = []string{"white", "black", "url(#hatched)", "url(#dotted)"}

// Patterns are what the fills refer to: a page of several drawings has them once.
const Patterns = `<svg width="0" height="0" aria-hidden="true" style="position:absolute"><defs>` +
	`<pattern id="hatched" width="4" height="4" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><rect width="4" height="4" fill="white"/><rect width="1.6" height="4" fill="black"/></pattern>` +
	`<pattern id="dotted" width="4" height="4" patternUnits="userSpaceOnUse"><rect width="4" height="4" fill="white"/><circle cx="2" cy="2" r="1" fill="black"/></pattern>` +
	`</defs></svg>`

// squares draws kinds one after the other; the page has Patterns, with a legend of those that occur.
func squares(kinds report.Squares, says string) string {
	var body strings.Builder
	place, rows := 0, 0
	for k, kind := range kinds {
		for range kind.Count {
			square(&body, float64(place%squaresAcross*squareSide), float64(place/squaresAcross*squareSide), fills[k%len(fills)])
			place++
		}
	}
	bottom := (place + squaresAcross - 1) / squaresAcross * squareSide
	for k, kind := range kinds {
		if kind.Words == "" {
			continue
		}
		y := float64(bottom + 6 + rows*legendLine)
		square(&body, 0, y, fills[k%len(fills)])
		fmt.Fprintf(&body, `<text x="14" y="%g" font-size="12" font-family="sans-serif">%s</text>`, y+8.7, html.EscapeString(kind.Kind+": "+kind.Words))
		rows++
	}
	width, height := squaresAcross*squareSide+1, bottom+8+rows*legendLine
	return fmt.Sprintf(`<svg viewBox="-0.5 -0.5 %d %d" role="img" aria-label="%s">%s</svg>`, width, height, html.EscapeString(says), body.String())
}

func square(out *strings.Builder, x, y float64, fill string) {
	fmt.Fprintf(out, `<rect x="%g" y="%g" width="8" height="8" fill="%s" stroke="black" stroke-width="0.5"/>`, x, y, fill)
}
