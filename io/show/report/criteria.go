package report

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// criteria adds a farm's choices beside its crop revenue, by each criterion; none is
// put first.
func (r *Report) criteria(c *answer.CriteriaPart) {
	if c == nil {
		return
	}
	r.heading(4, "The choices beside the crop revenue")
	if c.Missing != "" {
		r.text("No figures: missing " + c.Missing + ". They set the payment beside what the farm's crops bring in.")
		return
	}
	low, high := answer.Dollars(c.Income.Percentiles[poor]), answer.Dollars(c.Income.Percentiles[good])
	r.text(fmt.Sprintf("Income without payment: crop revenue at the national price and own yields, and other income; costs are left out (assumed). On average %s, eight outcomes in ten within %s to %s. Yields: %s.",
		wording.Whole(&c.Income.Mean), wording.Whole(&low), wording.Whole(&high), strings.Join(c.YieldFrom, "; ")))
	for _, asked := range c.Asked {
		if table, has := criterionTables[asked]; has {
			r.table(table(c))
		}
	}
}

// aversions lists the risk aversions for which sure amounts are given.
func aversions() string {
	var words []string
	for _, a := range answer.Aversions {
		words = append(words, fmt.Sprint(a))
	}
	return wording.Joined(words)
}

// criterionTables make the table of each criterion.
var criterionTables = map[answer.Criterion]func(*answer.CriteriaPart) Table{
	answer.SureAmounts: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Sure amount worth the same as the payment, USD, by risk aversion", []string{"none", "slight", "moderate", "strong"},
			[]string{"relative risk aversion " + aversions() + "; a payment that comes when income is low is worth more than its average"},
			func(k answer.CriteriaChoice) (cells []string) {
				for _, d := range k.SureAmount {
					cells = append(cells, wording.Whole(d))
				}
				return cells
			})
	},
	answer.WorstShare: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Average of the worst outcomes of income and payment together, USD", answer.WorstOutcomes(), nil, func(k answer.CriteriaChoice) (cells []string) {
			for _, d := range k.Worst {
				cells = append(cells, wording.Whole(&d))
			}
			return cells
		})
	},
	answer.WrongElection: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Cost of the wrong pick: given away on average against the highest choice of each outcome, USD", []string{"given away"}, nil,
			func(k answer.CriteriaChoice) []string { return []string{wording.Whole(k.WrongElection)} })
	},
	answer.Dominance: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Choices that leave no reason to take this one, by number", []string{"no.", "for all who like more", "for all who shun risk too"},
			[]string{"with the income, in these outcomes"}, func(k answer.CriteriaChoice) []string {
				return []string{fmt.Sprint(placeOf(c, k)), places(*k.FirstOrder), places(*k.SecondOrder)}
			})
	},
	answer.WithRevenue: func(c *answer.CriteriaPart) Table {
		return choiceTable(c, "Correlation of the payment with crop revenue: below zero, it tends to come when revenue is low", []string{"correlation"}, nil, func(k answer.CriteriaChoice) []string {
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
		t.Rows = append(t.Rows, append([]string{choiceText(k.Choice)}, cells(k)...))
	}
	return t
}

// placeOf returns the number of a choice, from 1.
func placeOf(c *answer.CriteriaPart, k answer.CriteriaChoice) int {
	return 1 + slices.IndexFunc(c.Choices, func(other answer.CriteriaChoice) bool { return choiceText(other.Choice) == choiceText(k.Choice) })
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
