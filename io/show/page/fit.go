package page

import (
	"fmt"
	"math"
	"unicode/utf8"

	"fencerow/io/show/report"
)

// Size of text and of pictures are the largest with which a sheet fits on one piece of
// letter paper. The estimate is rough and on the safe side; a test prints sheets of many
// lengths with a browser.
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

// fittings from comfortable to the least that can be read: 9 points. What is longer goes
// on to the next piece of paper.
var fittings = []fitting{{10, 1}, {9.5, 1}, {9, 1}, {9, 0.85}}

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
	switch {
	case b.Table != nil:
		height := (2*space + rowHeight*float64(2+len(b.Table.Rows))) * f.text // caption and heads
		for _, note := range b.Table.Notes {
			height += f.lines(note, 0)
		}
		return height
	case b.Pictures != nil:
		return picturesHeight(b.Pictures, f)
	case b.Columns != nil:
		highest := 0.0
		for _, column := range b.Columns {
			height := 0.0
			for _, inner := range column {
				height += inner.height(f)
			}
			highest = max(highest, height)
		}
		return highest
	}
	return wordsHeight(b.Text, f)
}

// wordsHeight estimates a block of text in points.
func wordsHeight(b report.Block, f fitting) (height float64) {
	switch b := b.(type) {
	case report.Heading:
		return 2.35 * f.text
	case report.Text:
		return f.lines(string(b), 0)
	case report.Lead:
		return f.lines(string(b), 0) * 1.5
	case report.Banner:
		return f.lines(string(b), 2*f.text) + 2*f.text
	case report.Small:
		return f.lines(string(b), 0)
	case report.Checklist:
		for _, text := range b {
			height += f.lines(text, 2*f.text)
		}
	case report.List:
		for _, point := range b {
			height += f.lines(point.Mark+": "+point.Text, 2*f.text)
		}
	}
	return height
}

const space = 0.3 // of the text size

// lines estimates a paragraph of a column less an indent, in points.
func (f fitting) lines(text string, indent float64) float64 {
	perLine := (paperWidth - indent) / (letterWidth * f.text)
	return (space + math.Ceil(float64(utf8.RuneCountInString(text))/perLine)*lineHeight) * f.text
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
