package page

import (
	"fmt"
	"math"
	"unicode/utf8"
)

// A sheet must fit on one piece of letter paper: size of text and of pictures are
// chosen so that an estimate of its height does. The estimate is rough and on the
// safe side; a test prints sheets of many lengths with a browser.
const (
	paperWidth, paperHeight = 540, 720 // points inside the margins
	letterWidth             = 0.48     // of the text size, on average
	lineHeight              = 1.25     // of the text size
	rowHeight               = 1.65     // of a table, with its rules
	betweenPictures         = 9.6
	largestScale            = 1.15 // of a picture, over its own size, as in page.html
	most                    = 1.03 // of the paper: what the estimate may come to
)

// fitting is a size of text in points and a size of pictures.
type fitting struct{ text, picture float64 }

// fittings from comfortable to the least that can be read.
var fittings = []fitting{{9.5, 1}, {9, 1}, {8.5, 1}, {8, 1}, {8, 0.85}, {7.5, 0.85}, {7.5, 0.7}, {7.5, 0.55}, {7, 0.55}, {7, 0.45}, {6.5, 0.45}, {6.5, 0.3}, {6, 0.3}, {6, 0.2}}

// style is the first fitting in which a sheet is not too long, else the last.
func (s sheet) style() string {
	chosen := fittings[len(fittings)-1]
	for _, f := range fittings {
		if s.height(f) <= most*paperHeight {
			chosen = f
			break
		}
	}
	return fmt.Sprintf("--text:%gpt;--picture:%g%%", chosen.text, 100*chosen.picture)
}

// height estimates a sheet in points.
func (s sheet) height(f fitting) (points float64) {
	for _, b := range s.Blocks {
		points += b.height(f)
	}
	return points
}

func (b block) height(f fitting) float64 {
	const space, heading = 0.3, 2.35 // of the text size
	lines := func(text string, indent float64) float64 {
		perLine := (paperWidth - indent) / (letterWidth * f.text)
		return math.Ceil(float64(utf8.RuneCountInString(text))/perLine) * lineHeight
	}
	height := 0.0
	switch {
	case b.Heading.Level > 0:
		height = heading
	case b.Text != "":
		height = space + lines(b.Text, 0)
	case b.List != nil:
		height = space
		for _, point := range b.List {
			height += lines(point.Mark+": "+point.Text, 2*f.text)
		}
	case b.Table != nil:
		height = 2*space + rowHeight*float64(2+len(b.Table.Rows)) // caption and heads
		for _, note := range b.Table.Notes {
			height += space + lines(note, 0)
		}
	case b.Pictures != nil:
		return picturesHeight(b.Pictures, f)
	}
	return height * f.text
}

// picturesHeight estimates a row of pictures, all to one scale, in points.
func picturesHeight(row []picture, f fitting) float64 {
	const space, captionSize, boldWidth = 0.5, 0.85, 0.56 // of the text size, but the last of the caption's
	width := 0.0
	for _, p := range row {
		width += p.width
	}
	scale := min(largestScale, (paperWidth*f.picture-betweenPictures*float64(len(row)-1))/width)
	highest, size := 0.0, captionSize*f.text
	for _, p := range row {
		lines := math.Ceil(float64(utf8.RuneCountInString(p.Question)) * boldWidth * size / (p.width * scale))
		highest = max(highest, lines*lineHeight*size+p.height*scale)
	}
	return highest + space*f.text
}
