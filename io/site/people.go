package site

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// people adds what each person would be paid on average, as last elected and as the
// figures lean; nothing where the answer has neither.
func (f *frame) people(c answer.Comparison) {
	y := c.CropYears[0]
	last, leads := y.Operation.UnderElections(answer.LastElected), y.Operation.UnderElections(answer.AsItLeans)
	if leads == nil || leads.Mean == nil {
		return
	}
	f.put("<h2>What each person would be paid for %s</h2>\n", fmt.Sprint(y.CropYear))
	f.WriteString(`<table class="figures"><caption>Dollars on average, after shares, payment limit and sequestration, if all contracts are signed</caption><thead><tr><td></td><th scope="col">as last elected</th><th scope="col">as the figures lean</th><th scope="col">more on average</th><th scope="col">poor case: 1 in 10 is lower</th></tr></thead><tbody>` + "\n")
	for _, p := range leads.ByPerson {
		before, more := "not given", "-"
		if last != nil && last.Mean != nil {
			for _, q := range last.ByPerson {
				if q.ID == p.ID {
					gain := p.MeanAfterLimit - q.MeanAfterLimit
					before, more = wording.Whole(&q.MeanAfterLimit), wording.Whole(&gain)
				}
			}
		}
		f.put(`<tr><th scope="row">%s</th><td>%s</td><td>%s</td><td>%s</td><td>%s</td></tr>`+"\n", personName(p.ID), before, wording.Whole(&p.MeanAfterLimit), more, poorCase(p))
	}
	f.WriteString("</tbody></table>\n<p class=\"small\">As the figures lean: each crop in the program that averages more, a toss-up too.</p>\n")
	if last != nil && len(last.LeftOut) > 0 {
		f.put("<p class=\"small\">As last elected leaves out, for want of a last election or of figures: %s.</p>\n", wording.Joined(wording.FarmsAndCrops(last.LeftOut, y.Farms)))
	}
}

// poorCase is what 1 outcome in 10 is lower than.
func poorCase(p answer.PersonPart) string {
	if len(p.Percentiles) <= answer.Tenth {
		return "-"
	}
	tenth := answer.Dollars(p.Percentiles[answer.Tenth])
	if tenth == 0 {
		return "$0 in 1 of 10 or more"
	}
	return wording.Whole(&tenth)
}

// personName names a producer: the visitor is the operator.
func personName(id string) string {
	if id == you {
		return "You, the operator"
	}
	return wording.Capital(id)
}
