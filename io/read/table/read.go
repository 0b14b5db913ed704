package table

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Note names a line, heading or sheet that was not understood. The reading went on without it.
type Note struct {
	Line   int    // of the sheet, counted from 1; 0: not one line
	Text   string // the words of the line (county, crop, unit, practice), the heading or the sheet
	Reason string
}

// Read returns the yields of a county workbook as a source for a county book,
// with a note for every line left out.
//
// Adjusted holds the five trend-adjusted yields, BenchmarkYield the published
// benchmark and Actual the published county yield, each under the workbook's
// program year and in bushels or pounds per planted acre. A figure not yet
// published is missing from its map, never zero. A county is keyed by its
// five-digit code and its sub-county letter, if any ("30015A").
//
// A file that cannot be read as such a workbook is refused with farm.Mistakes.
//
// Source of the layouts: USDA FSA, ARC-CO county tables, program years 2014-2025.
func Read(path string) (farm.CountySource, []Note, error) {
	t, err := readTable(path)
	if err != nil {
		return farm.CountySource{}, nil, err
	}
	source := farm.CountySource{
		Name:     fmt.Sprintf("FSA ARC-CO county table, program year %d, sheet '%s'", t.programYear, t.sheet),
		Status:   crop.Agency,
		Agency:   true,
		Counties: map[string]farm.County{},
	}
	for _, r := range t.rows {
		county, seen := source.Counties[r.Code]
		if !seen {
			county = farm.County{Code: r.Code, Name: r.CountyName}
		}
		county.Yields = append(county.Yields, r.yields())
		source.Counties[r.Code] = county
	}
	return source, t.notes, nil
}

// ReadSheet returns every line of a county workbook that was understood, in the
// order of the sheet, with all its columns, and the name of the sheet, which carries
// the date of the edition; notes and error are those of Read.
func ReadSheet(path string) (sheet string, rows []Row, notes []Note, err error) {
	t, err := readTable(path)
	return t.sheet, t.rows, t.notes, err
}

// NotCountyTable is the reason for which a sound workbook is refused that has no
// county table: it may be another of the agency's tables.
const NotCountyTable = "no sheet has a line of headings beginning with ST_Cty in column A"

// table is what one sheet holds.
type table struct {
	sheet       string
	programYear crop.CropYear
	rows        []Row
	notes       []Note
}

// yields returns the part of the row that a county book keeps.
func (r Row) yields() farm.CountyYield {
	y := farm.CountyYield{Commodity: r.Commodity, Practice: r.Practice}
	if five, ok := r.five(); ok {
		y.Adjusted = map[crop.CropYear][5]crop.Yield{r.ProgramYear: five}
	}
	if r.BenchmarkYield != nil {
		y.BenchmarkYield = map[crop.CropYear]crop.Yield{r.ProgramYear: *r.BenchmarkYield}
	}
	if r.ActualYield != nil {
		y.Actual = map[crop.CropYear]crop.Yield{r.ProgramYear: *r.ActualYield}
	}
	return y
}
