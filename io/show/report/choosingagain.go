package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// aboutChoosingAgain says what the tables of choosing again hold, or why there are none;
// "" where the law lets nobody choose again.
func aboutChoosingAgain(c answer.Comparison) string {
	if c.Model.Name == answer.PastHistory && c.ChangeFrom != 0 {
		return "What choosing again each year adds is left out: past years drawn again are too few to choose on."
	}
	for _, t := range c.Together {
		for _, y := range t.Years {
			if y.ChoosingAgain != nil {
				return "Choosing again: the choice of a year follows the price of the crop year before, cut into " + answer.NewsRanges() +
					"; one choice: the same program whatever that price. Both are chosen on one half of the outcomes and valued on the other. Where that price does not tell the programs apart, choosing again adds about nothing. When a year's election is made, a part of that price is still open."
			}
		}
	}
	return ""
}

// choosingAgain adds a table of what choosing again each year adds to one choice.
func (r *Report) choosingAgain(t answer.Together) {
	table := Table{
		Title:   fmt.Sprintf("Farm %s, %s: choosing again each year, USD per base acre on average", t.Farm, t.Commodity.Name()),
		Columns: []string{"crop year", "one choice", "choosing again", "adds", "give or take*"},
		Notes:   []string{"* standard error of what it adds"},
	}
	for _, y := range t.Years {
		if a := y.ChoosingAgain; a != nil {
			table.Rows = append(table.Rows, []string{fmt.Sprint(y.CropYear), wording.Money(&a.OneChoice), wording.Money(&a.Again), wording.Money(&a.Adds.Mean), wording.Money(&a.Adds.StandardError)})
		}
	}
	if len(table.Rows) > 0 {
		r.table(table)
	}
}
