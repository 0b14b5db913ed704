package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// individual shows ARC-IC: in full where it can matter, else in one line.
func (r *Report) individual(p *answer.ARCICPart) {
	if p == nil {
		return
	}
	if !p.CanMatter || p.Missing != "" {
		r.text("ARC-IC (whole farm) is not shown in full. The reason: " + p.Reason + ".")
		return
	}
	r.heading(4, "ARC-IC, the whole farm on its own yields")
	r.text(fmt.Sprintf("Its benchmark revenue is %s a planted acre and its guarantee %s (%s). It pays on %s acres, whatever the crop of the base.",
		wording.Money(p.BenchmarkRevenue), wording.Money(p.Guarantee), p.Status, wording.Plain(&p.PaymentAcres)))
	t := Table{Title: "Dollars per base acre of the farm", Columns: []string{"", "ARC-IC"}}
	for _, row := range programRows {
		if row.name == costRow {
			continue
		}
		t.Rows = append(t.Rows, []string{row.name, row.figure(p.PerBaseAcre)})
	}
	r.table(t)
	for _, c := range p.Crops {
		r.text(cropSentence(c))
	}
	if len(p.PooledWith) > 0 {
		r.text("Pooled, by share, with the farms last elected ARC-IC: " + wording.Joined(p.PooledWith) + ". A gain on one offsets a loss on another.")
	}
	r.text("ARC-IC covers every covered crop on the farm. All producers must agree. A producer's ARC-IC farms in one State are pooled. A production report is due every year. Its details are not confirmed: ask the county office.")
}

// cropSentence says what is planted of one crop and what its own yield is.
func cropSentence(c answer.ARCICCrop) string {
	text := fmt.Sprintf("%s: %s acres planted, %s prevented, own benchmark revenue %s an acre.", wording.Capital(c.Commodity.Name()), wording.Plain(&c.PlantedAcres), wording.Plain(&c.PreventedAcres), wording.Money(c.BenchmarkRevenue))
	y := c.Yield
	if y == nil {
		return text
	}
	text += fmt.Sprintf(" Own yield %s %s%s", wording.Plain(&y.Mean), c.Commodity.Unit().Yield(), wording.Mark(y.Status))
	if y.Low != nil && y.High != nil && *y.Low < *y.High {
		text += fmt.Sprintf(", in 8 of 10 outcomes between %s and %s", wording.Plain(y.Low), wording.Plain(y.High))
	}
	return text + ": " + y.MeanFrom + "."
}
