package farmtable

import (
	"fmt"
	"regexp"
	"strings"

	"fencerow/io/read/lines"
)

// furniture is a kind of row that is no base: it is passed over and noted.
type furniture int

// The kinds of rows that are passed over.
const (
	noFurniture furniture = iota
	totalRow              // sums of other rows, without a farm and commodity of its own
	headingRow            // the headings again, at the top of a page
	titleRow              // a title again, a page number or a sentence
	furnitureCount
)

var furnitureWords = [furnitureCount]string{totalRow: "of totals", headingRow: "of headings again", titleRow: "of titles, page numbers or notes"}

// passed are the rows of one kind that were passed over.
type passed struct {
	rows  int
	lines []int // of the first few
}

var (
	totalWord = regexp.MustCompile(`(?i)^((grand|sub|farm|page|report|tract|county)[ -]*)?totals?\b|\btotals?\s*:?$`)
	pageWord  = regexp.MustCompile(`(?i)^page\b.*[0-9]`)
)

// fewestWords is the fewest words of a sentence: no farm number has so many.
const fewestWords = 4

// passOver reports whether a line is no row of a base, and counts it where it is not.
func (r *Reader) passOver(line lines.Line) bool {
	kind := r.furniture(line.Cells)
	if kind == noFurniture {
		return false
	}
	if kind == totalRow {
		r.above = aboveRow{} // the farm ends with its total
	}
	p := &r.passed[kind]
	if p.rows++; len(p.lines) < mostShown {
		p.lines = append(p.lines, line.Number)
	}
	return true
}

// furniture tells what kind of row a line is.
func (r *Reader) furniture(cells []string) furniture {
	farm, commodity, acres := r.cell(cells, farmColumn), r.cell(cells, commodityColumn), r.cell(cells, baseAcresColumn)
	switch {
	case farm != "" && commodity != "":
		switch {
		case isTotal(farm) || isTotal(commodity):
			return totalRow
		case acres != "" && (acres[0] < '0' || acres[0] > '9') && r.isHeadings(farm, commodity, acres):
			return headingRow
		}
	case farm == "" && commodity == "" || isTotal(farm) || isTotal(commodity):
		for _, cell := range cells {
			if isTotal(strings.TrimSpace(cell)) {
				return totalRow
			}
		}
		fallthrough
	default:
		if acres == "" && r.isTitle(cells) {
			return titleRow
		}
	}
	return noFurniture
}

// cell is what stands in a column, without blanks around it.
func (r *Reader) cell(cells []string, c column) string {
	if at := r.place[c]; at != absent && at < len(cells) {
		return strings.TrimSpace(cells[at])
	}
	return ""
}

// isTotal reports whether a cell says that its row is a sum: "TOTAL", "0417 Total".
func isTotal(text string) bool {
	if !strings.Contains(text, "ota") && !strings.Contains(text, "OTA") { // most cells
		return false
	}
	return totalWord.MatchString(text)
}

// isHeadings reports whether values are the headings of their columns.
func (r *Reader) isHeadings(farm, commodity, acres string) bool {
	for c, text := range map[column]string{farmColumn: farm, commodityColumn: commodity, baseAcresColumn: acres} {
		of, ok := r.profile.meaning(text)
		if !ok {
			of, ok = understood(text)
		}
		if !ok || of.column != c {
			return false
		}
	}
	return true
}

// isTitle reports whether a line of one cell is a title that stood above the headings, a
// page number or a sentence.
func (r *Reader) isTitle(cells []string) bool {
	text := ""
	for _, cell := range cells {
		if cell = strings.TrimSpace(cell); cell == "" {
			continue
		}
		if text != "" {
			return r.titles[summary(cells)]
		}
		text = cell
	}
	return r.titles[summary(cells)] || pageWord.MatchString(text) || len(strings.Fields(text)) >= fewestWords
}

// passedNotes are the notes of rows that were passed over.
func (r *Reader) passedNotes() (notes []string) {
	for kind, p := range r.passed {
		if p.rows == 0 {
			continue
		}
		where := strings.Trim(strings.ReplaceAll(fmt.Sprint(p.lines), " ", ", "), "[]")
		if p.rows > len(p.lines) {
			where += ", ..."
		}
		rows := "rows"
		if p.rows == 1 {
			rows = "row"
		}
		notes = append(notes, fmt.Sprintf("%d %s %s passed over (line %s)", p.rows, rows, furnitureWords[kind], where))
	}
	return notes
}
