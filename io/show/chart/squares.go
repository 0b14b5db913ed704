package chart

import "fencerow/io/show/report"

// A bar of 100 squares: rows filled from the top, left to right.
const (
	squarePitch, squareSide = 7.4, 6.2
	squaresAcross           = 20
	squaresRows             = 100 / squaresAcross
	legendStep              = 13.0
	legendText              = 12.0 // how far it stands from the left
)

// fills are those of the kinds, in their order: neither, ARC-CO, PLC, both.
var fills = []string{white, black, hatched, ruled}

func squaresSize(kinds report.Squares) (width, height float64) {
	told := 0.0
	for _, kind := range kinds {
		if kind.Words != "" {
			told++
		}
	}
	return squaresAcross*squarePitch + 1, squaresRows*squarePitch + 3 + told*legendStep
}

// squares draws kinds one after the other, below them how many each are, of those
// that occur.
func squares(c *canvas, kinds report.Squares) {
	square := func(x, y float64, k int) {
		c.rect(box{x, y, x + squareSide, y + squareSide}, fills[k%len(fills)], thin)
	}
	place := 0
	y := squaresRows*squarePitch + 4.0
	for k, kind := range kinds {
		for range kind.Count {
			square(0.5+float64(place%squaresAcross)*squarePitch, 0.5+float64(place/squaresAcross)*squarePitch, k)
			place++
		}
		if kind.Words == "" {
			continue
		}
		square(0.5, y+1.5, k)
		c.write(label{kind.Kind + ": " + kind.Words, legendText, y + 8, fromLeft})
		y += legendStep
	}
}
