package chart

import (
	"strconv"
	"strings"

	"fencerow/io/show/report"
)

// A block of 100 squares, filled in rows from the bottom, and at its right how many each
// kind are, in pixels.
const (
	squarePitch, squareSide = 11.7, 10.2
	squaresAcross           = 10
	blockTop                = 0.6
	blockSide               = squaresAcross * squarePitch
	keyLeft                 = blockSide + 12
	squaresHeight           = blockSide + 1
	squaresLeast            = 250 // wide
)

// upwards is the order of fills from the bottom of the block.
var upwards = []string{black, hatched, netted, dark, white}

// run is a kind with its place in the block.
type run struct {
	report.Square
	fill  string
	first int // its first square, counted from the bottom
	count *note
	words *note
}

// runs are the kinds that occur, from the bottom up, each labelled at its height unless
// a neighbour is there.
func runs(kinds report.Squares) (all []run) {
	for _, fill := range upwards {
		for _, kind := range kinds {
			if (kind.Words != "" || kind.Count > 0) && fillOf(kind.Kind) == fill {
				all = append(all, run{Square: kind, fill: fill})
			}
		}
	}
	const step = 22.0 // from label to label
	var wanted, heights []float64
	widest, place := 0.0, 0
	for i := range all {
		r := &all[i]
		r.first = place
		place += r.Count
		rows := (float64(r.first) + float64(r.Count)/2) / squaresAcross
		wanted, heights = append(wanted, rows*squarePitch), append(heights, step)
		count := strings.Replace(r.Words, "less than ", "<", 1)
		if count == "" {
			count = strconv.Itoa(r.Count)
		}
		r.count = &note{text: count, align: toRight, size: large, bold: true}
		widest = max(widest, r.count.width())
	}
	for i, up := range spread(wanted, heights, 0, 0, squaresHeight) {
		r := &all[i]
		r.count.y = squaresHeight - up + large*capital/2
		r.count.x = keyLeft + squareSide + 5 + widest
		r.words = &note{text: r.Kind, x: r.count.x + 6, y: r.count.y, align: fromLeft, size: small}
	}
	return all
}

func squaresSize(kinds report.Squares) (width, height float64) {
	width = squaresLeast
	for _, r := range runs(kinds) {
		width = max(width, r.words.box().right+1)
	}
	return width, squaresHeight
}

// squares draws the runs and their labels; a kind that is none of the hundred has no
// square, and one that has none of its own has one beside its label.
func squares(c *canvas, kinds report.Squares) {
	square := func(x, y float64, fill string) {
		c.rect(box{x, y, x + squareSide, y + squareSide}, fill, thin)
	}
	all := runs(kinds)
	for i := range all {
		r := &all[i]
		for k := range r.Count {
			place := r.first + k
			square(0.5+float64(place%squaresAcross)*squarePitch, blockTop+blockSide-float64(place/squaresAcross+1)*squarePitch, r.fill)
		}
		square(keyLeft, r.count.y-large*capital/2-squareSide/2, r.fill)
		c.note(r.count)
		c.note(r.words)
	}
}
