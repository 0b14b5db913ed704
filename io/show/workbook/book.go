package workbook

import (
	"io"
	"slices"

	"fencerow/io/show/report"
	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// Pages are the parts that do not follow the cells: text, each a sheet of its own, and
// past years. Insurance is left out where it has no blocks.
type Pages struct {
	Standing, Insurance, Sources report.Report
	PastYears                    explain.Replayed
}

// Figures are what the formulas start from, by crop year of the comparison, in order: its
// workings, and its rows of crops and counties.
type Figures struct {
	Workings []explain.Workings
	Rows     []explain.CountyRows
}

// Write writes the workbook of a comparison.
func Write(w io.Writer, c answer.Comparison, f Figures, r Pages) error {
	sheets, _ := lay(c, f, r)
	return written(w, sheets)
}

// WriteCounties writes the workbook of counties alone, without farms.
func WriteCounties(w io.Writer, c answer.Comparison, rows []explain.CountyRows, r Pages) error {
	book := front.Lay(rows)
	sheets := slices.Concat(book.Sheets(), layPages(c, r))
	for _, s := range sheets {
		s.End(ending(c)...)
	}
	return written(w, append(sheets, book.Hidden()...))
}

func written(w io.Writer, sheets []*cells.Sheet) error {
	values, err := cells.Evaluate(sheets)
	if err != nil {
		return err
	}
	return cells.Write(w, sheets, values)
}

// lay lays out all sheets in their order: Front and what it looks up, where the farms
// stand, what can be changed and what follows it, then the odds. The last that is live
// leads to the places of all figures.
func lay(c answer.Comparison, f Figures, r Pages) ([]*cells.Sheet, *otherPrices) {
	book := front.Lay(f.Rows)
	inputs := layInputs(c, f.Workings, book)
	bases := layBaseByBase(inputs)
	results := layResults(bases)
	other := layOtherPrices(results)
	pages := layPages(c, r)
	standing := pages[:min(1, len(pages), len(r.Standing.Blocks))]
	fixed := []*cells.Sheet{layOdds(c)}
	if past := layPast(r.PastYears); past != nil {
		fixed = append(fixed, past)
	}
	sheets := slices.Concat(book.Sheets(), standing, []*cells.Sheet{inputs.Sheet, results.Sheet, bases.Sheet, other.Sheet}, fixed, pages[len(standing):])
	for _, s := range sheets {
		s.End(ending(c)...)
	}
	return append(sheets, book.Hidden()...), other
}
