package table

import (
	"fmt"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// column is what a column of the table means, wherever it stands.
type column int

// The columns. Those from firstFigure on hold numbers.
const (
	code column = iota
	stateName
	countyName
	subCounty
	cropName
	unit
	designation
	oldestAdjusted        // the first of five, ordered by crop year
	benchmarkYield column = iota + 4
	benchmarkPrice
	benchmarkRevenue
	guarantee
	maximumRate
	actualYield
	nationalPrice
	actualRevenue
	formulaRate
	paymentRate
	columnCount
	firstFigure = oldestAdjusted
)

// columnOf a heading, by its folded words without year and brackets.
var columnOf = map[string]column{
	"stcty":                 code,
	"statename":             stateName,
	"countyname":            countyName,
	"subcounty":             subCounty,
	"cropname":              cropName,
	"unit":                  unit,
	"arccoyielddesignation": designation,
	"yielddesignation":      designation,
	"trendadjusted":         oldestAdjusted,
	"benchmark":             benchmarkYield,
	"benchmarkyield":        benchmarkYield,
	"benchmarkprice":        benchmarkPrice,
	"benchmarkrevenue":      benchmarkRevenue,
	"guaranteerevenue":      guarantee,
	"maximumpaymentrate":    maximumRate,
	"actualyield":           actualYield,
	"nationalprice":         nationalPrice,
	"actualrevenue":         actualRevenue,
	"formulapaymentrate":    formulaRate,
	"arccopaymentrate":      paymentRate,
	"paymentrate":           paymentRate,
}

// required columns and the agency's words for them.
var required = []struct {
	column
	words string
}{
	{countyName, "County Name"}, {cropName, "Crop Name"}, {unit, "Unit"},
	{designation, "ARC-CO Yield Designation"}, {benchmarkYield, "Bench Mark"},
}

// heading says in which place of a line each column stands, from 0; -1: nowhere.
type heading struct {
	line        int
	programYear crop.CropYear
	place       [columnCount]int
	text        [columnCount]string // the heading as people read it
}

// isHeading reports whether a line of the sheet is the one with the headings:
// the first whose first cell is ST_Cty. Its number differs by program year.
func isHeading(cells []string) bool {
	return len(cells) > 0 && foldWord(cells[0]) == "stcty"
}

// headingPattern takes a heading apart: the crop year, if any, which may be
// written as a difference (2023-6), then the words, then what is in brackets.
var headingPattern = regexp.MustCompile(`^(?:(\d{4})(?:-(\d))? )?([^(]*)`)

// readHeading finds the columns of a table by the words of their headings.
// What it cannot place is noted; what it cannot do without is a mistake.
func readHeading(file string, line int, cells []string) (heading, []Note, farm.Mistakes) {
	r := headingReader{file: file, adjusted: map[crop.CropYear]int{}, years: map[crop.CropYear]bool{}}
	r.line = line
	for c := range r.place {
		r.place[c] = -1
	}
	for place, cell := range cells {
		if words := strings.Join(strings.Fields(cell), " "); words != "" {
			r.take(place, words)
		}
	}
	r.missing()
	r.setProgramYear()
	if len(r.mistakes) == 0 {
		r.setAdjusted()
	}
	return r.heading, r.notes, r.mistakes
}

// headingReader is a heading that is being read.
type headingReader struct {
	heading
	file     string
	adjusted map[crop.CropYear]int  // place of the trend-adjusted yield of a crop year
	years    map[crop.CropYear]bool // program years named
	notes    []Note
	mistakes farm.Mistakes
}

// take places one heading.
func (r *headingReader) take(place int, words string) {
	parts := headingPattern.FindStringSubmatch(words)
	year, _ := strconv.Atoi(parts[1]) // 0: names none
	lag, _ := strconv.Atoi(parts[2])
	c, known := columnOf[foldWord(parts[3])]
	_, again := r.adjusted[year-lag]
	switch {
	case !known:
		r.notes = append(r.notes, Note{r.line, words, "heading not known: the column is not read"})
	case c == oldestAdjusted && !again:
		r.adjusted[year-lag] = place
	case c == oldestAdjusted || r.place[c] >= 0:
		r.mistake(place+1, words, fmt.Sprintf("two columns are headed %q", words))
	default:
		r.place[c], r.text[c] = place, words
		if year != 0 {
			r.years[year] = true
		}
	}
}

func (r *headingReader) mistake(columnNumber int, value, reason string) {
	r.mistakes = append(r.mistakes, farm.Mistake{File: r.file, Line: r.line, Column: columnNumber, Value: value, Reason: reason, Hint: hintUntouched})
}

// missing names every required column that is not there.
func (r *headingReader) missing() {
	for _, want := range required {
		if r.place[want.column] < 0 {
			r.mistake(0, want.words, fmt.Sprintf("no column is headed %q", want.words))
		}
	}
}

// setProgramYear takes the program year from the headings, which must agree.
func (r *headingReader) setProgramYear() {
	found := slices.Sorted(maps.Keys(r.years))
	switch len(found) {
	case 0:
		r.mistake(0, "", "no heading names the program year")
	case 1:
		r.programYear = found[0]
	default:
		r.mistake(0, fmt.Sprint(found), fmt.Sprintf("the headings name several program years: %v", found))
	}
}

// oldestLag is how many years before the program year the oldest of its five
// crop years lies. Source: USDA FSA, ARC-CO county tables, program years 2019-2025.
const oldestLag = 6

// setAdjusted puts the trend-adjusted yields in the order of their crop years.
// There are five, or none in the tables of 2014-2018.
func (r *headingReader) setAdjusted() {
	if len(r.adjusted) == 0 {
		return
	}
	var five []crop.CropYear
	for i := range (Row{}).Adjusted {
		five = append(five, r.programYear-oldestLag+i)
	}
	found := slices.Sorted(maps.Keys(r.adjusted))
	if !slices.Equal(found, five) {
		r.mistake(0, fmt.Sprint(found), fmt.Sprintf("trend adjusted yields are of crop years %v, those of program year %d are %v", found, r.programYear, five))
		return
	}
	for i, y := range five {
		c := oldestAdjusted + column(i)
		r.place[c], r.text[c] = r.adjusted[y], fmt.Sprintf("%d trend adjusted", y)
	}
}

// cell returns the text of column c in a line, without spaces around it; ""
// where the line or the table has none.
func (h *heading) cell(cells []string, c column) string {
	place := h.place[c]
	if place < 0 || place >= len(cells) {
		return ""
	}
	return strings.TrimSpace(cells[place])
}

// foldWord keeps the letters and digits of a text, in lower case: line breaks,
// spaces and hyphens differ between program years.
func foldWord(text string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r >= 'A' && r <= 'Z':
			return r - 'A' + 'a'
		case r >= 'a' && r <= 'z', r >= '0' && r <= '9':
			return r
		}
		return -1
	}, text)
}
