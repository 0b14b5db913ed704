package workbook

import (
	"io"
	"slices"

	"fencerow/io/show/report"
	"fencerow/io/show/workbook/cells"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// Pages are the parts that are text and odds, each a sheet of its
// own.
type Pages struct{ Odds, PastYears, Standing, Sources report.Report }

// Write writes the workbook of a comparison. workings are of the crop years of
// the comparison, in order.
func Write(w io.Writer, c answer.Comparison, workings []explain.Workings, r Pages) error {
	sheets, _ := lay(c, workings, r)
	values, err := cells.Evaluate(sheets)
	if err != nil {
		return err
	}
	return cells.Write(w, sheets, values)
}

// lay lays out all sheets in their order: the answer, what can be changed and what follows
// it, then the odds. The last that is live leads to the places of all figures.
func lay(c answer.Comparison, workings []explain.Workings, r Pages) ([]*cells.Sheet, *otherPrices) {
	inputs := layInputs(c, workings)
	arithmetic := layArithmetic(inputs)
	bases := layBaseByBase(arithmetic)
	results := layResults(bases)
	other := layOtherPrices(results)
	live, pages := []*cells.Sheet{inputs.Sheet, results.Sheet, arithmetic.Sheet, bases.Sheet, other.Sheet}, layPages(c, r)
	for _, s := range slices.Concat(live, pages) {
		s.End(ending(c)...)
	}
	if len(pages) == 0 {
		return live, other
	}
	return slices.Concat(pages[:1], live, pages[1:]), other
}
