package report

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// criteria adds a farm's programs together with its crop revenue, by each criterion; none
// is put first.
func (r *Report) criteria(c *answer.CriteriaPart) {
	if c == nil {
		return
	}
	r.heading(4, "The programs together with crop revenue")
	if c.Missing != "" {
		r.text("No figures: missing " + c.Missing + ". They add the payment to what the farm's crops bring in.")
		return
	}
	low, high := answer.Dollars(c.Income.Percentiles[poor]), answer.Dollars(c.Income.Percentiles[good])
	r.text(fmt.Sprintf("Income before payments is crop revenue at the national price and the farm's own yields, plus other income. Costs are left out (assumed). It averages %s. In 8 of 10 outcomes it ends between %s and %s. Yields: %s.",
		wording.Whole(&c.Income.Mean), wording.Whole(&low), wording.Whole(&high), strings.Join(c.YieldFrom, "; ")))
	for _, asked := range c.Asked {
		if table, has := criterionTables[asked]; has {
			r.table(table(c))
		}
	}
}

// criterionTables make the table of each criterion.
var criterionTables = map[answer.Criterion]func(*answer.CriteriaPart) Table{
	answer.SureAmounts: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "What the payment is worth as sure money, by how much you dislike risk (dollars)", []string{"none", "slight", "moderate", "strong"},
			[]string{"A payment that comes when income is low is worth more than its average."},
			func(k answer.CriteriaChoice) (cells []string) {
				for _, d := range k.SureAmount {
					cells = append(cells, wording.Whole(d))
				}
				return cells
			})
	},
	answer.WorstShare: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Income and payment together: average of the lowest outcomes, dollars", answer.WorstOutcomes(), nil, func(k answer.CriteriaChoice) (cells []string) {
			for _, d := range k.Worst {
				cells = append(cells, wording.Whole(&d))
			}
			return cells
		})
	},
	answer.WrongElection: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Average given up against the programs that pay most in each outcome, dollars", []string{"given up"}, nil,
			func(k answer.CriteriaChoice) []string { return []string{wording.Whole(k.WrongElection)} })
	},
	answer.Dominance: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Rows that are ahead of this one, by number", []string{"row", "for anyone", "for anyone who dislikes risk"},
			[]string{"Income and payment together, in these outcomes."}, func(k answer.CriteriaChoice) []string {
				return []string{fmt.Sprint(placeOf(c, k)), places(*k.FirstOrder), places(*k.SecondOrder)}
			})
	},
	answer.WithRevenue: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "How the payment moves with crop revenue (correlation): below zero, it tends to come when revenue is low", []string{"correlation"}, nil, func(k answer.CriteriaChoice) []string {
			if k.Correlation == nil {
				return []string{"-"}
			}
			return []string{program.Text(float64(*k.Correlation), 2)}
		})
	},
}

// choiceTable makes a table with a row for each choice.
func choiceTable(c *answer.CriteriaPart, title string, columns, notes []string, cells func(answer.CriteriaChoice) []string) Table {
	t := Table{Title: title, Columns: append([]string{""}, columns...), Notes: notes}
	for _, k := range c.Choices {
		t.Rows = append(t.Rows, append([]string{wording.Programs(k.Choice)}, cells(k)...))
	}
	return t
}

// placeOf returns the number of a choice, from 1.
func placeOf(c *answer.CriteriaPart, k answer.CriteriaChoice) int {
	return 1 + slices.IndexFunc(c.Choices, func(other answer.CriteriaChoice) bool {
		return wording.Programs(other.Choice) == wording.Programs(k.Choice)
	})
}

// places writes indexes as numbers from 1.
func places(all []int) string {
	if len(all) == 0 {
		return "none"
	}
	var words []string
	for _, i := range all {
		words = append(words, fmt.Sprint(i+1))
	}
	return strings.Join(words, ", ")
}
