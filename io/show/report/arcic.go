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
		r.text("ARC-IC (whole farm): not shown in full, because " + p.Reason + ".")
		return
	}
	r.heading(4, "ARC-IC, the whole farm by its own yields")
	r.text(fmt.Sprintf("Worth a look: %s. Benchmark revenue %s per planted acre, guarantee %s (%s). It pays on %s acres, whatever the commodity of the base.",
		p.Reason, wording.Money(p.BenchmarkRevenue), wording.Money(p.Guarantee), p.Status, wording.Plain(&p.PaymentAcres)))
	t := Table{Title: "USD per base acre of the farm", Columns: []string{"", "ARC-IC"}}
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
		r.text("Pooled, by share, with the farms that have ARC-IC on record: " + wording.Joined(p.PooledWith) + ". A gain on one offsets a loss on another.")
	}
	r.text("ARC-IC wants all producers of the farm to agree, holds for all its covered commodities, pools all the producer's ARC-IC farms of the State, and asks for a production report every year. Its details are not confirmed here in a primary text: ask the county office.")
}

// cropSentence says what is planted of one crop and what its own yield is.
func cropSentence(c answer.ARCICCrop) string {
	text := fmt.Sprintf("%s: %s acres planted, %s prevented, own benchmark revenue %s per acre", wording.Capital(c.Commodity.Name()), wording.Plain(&c.PlantedAcres), wording.Plain(&c.PreventedAcres), wording.Money(c.BenchmarkRevenue))
	if c.Yield == nil {
		return text + "."
	}
	return text + fmt.Sprintf(", own yield %s %s%s, give or take %s (%s).", wording.Plain(&c.Yield.Mean), c.Commodity.Unit().Yield(), wording.Mark(c.Yield.Status), wording.Plain(&c.Yield.SD), c.Yield.MeanFrom)
}
