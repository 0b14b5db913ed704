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
		return "What choosing again each year adds is left out: a replay has too few past years to choose on."
	}
	for _, t := range c.Together {
		for _, y := range t.Years {
			if y.ChoosingAgain != nil {
				return "Choosing again takes the program that averages more once the price of the crop year before is known, cut into " + answer.NewsRanges() +
					". One choice keeps the same program whatever that price. Both are chosen on one half of the outcomes and valued on the other. Where that price does not tell the programs apart, choosing again adds about nothing. Part of that price is still open when a year's election is made."
			}
		}
	}
	return ""
}

// choosingAgain adds a table of what choosing again each year adds to one choice.
func (r *Report) choosingAgain(t answer.Together, name string) {
	table := Table{
		Title:   name + ": choosing again each year, dollars per base acre on average",
		Columns: []string{"crop year", "one choice", "choosing again", "adds", "off by chance*"},
		Notes:   []string{"* in 2 of 3 cases what it adds is off by no more, for the outcomes tried"},
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
