package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/explain"
)

// OfNewBase lays out how the new base acres of every farm arise.
func OfNewBase(n explain.NewBases) Report {
	var r Report
	r.heading(1, "New base acres from crop year 2026, as of "+wording.Date(n.Today))
	var keys []string
	for _, f := range n.Farms {
		keys = append(keys, f.Farm)
	}
	for _, f := range n.Farms {
		r.newBase(f, wording.Number(f.Farm, keys))
	}
	r.heading(2, "What these acres are not")
	r.notes(n.Notes)
	r.caution(n.Caution)
	return r
}

func (r *Report) newBase(f explain.FarmNewBase, name string) {
	r.heading(2, "Farm "+name)
	switch {
	case f.Eligible == nil:
		r.text("Not worked out. " + wording.Capital(f.Reason) + ".")
	case !*f.Eligible:
		r.text("No new base: " + f.Reason + ".")
	case f.Reason != "":
		r.text("Eligible, but no new base: " + f.Reason + ".")
	default:
		r.text(fmt.Sprintf("New base: %s acres, %s before the national factor of %.4g.", wording.Plain(f.Added), wording.Plain(f.AddedBeforeFactor), float64(f.Factor)))
	}
	r.stepTable("step", f.Steps)
	if len(f.Commodities) > 0 {
		t := Table{Title: "Base acres by crop", Columns: []string{"", "added", "base with it", "PLC yield"}}
		for _, c := range f.Commodities {
			yield := "not known"
			if c.PaymentYield != nil {
				yield = wording.Plain(c.PaymentYield) + " " + c.Commodity.Unit().Yield()
			}
			t.Rows = append(t.Rows, []string{c.Commodity.Name(), wording.Grouped(float64(c.Added), 2), wording.Grouped(float64(c.BaseAcres), 2), yield})
		}
		r.table(t)
	}
	r.notes(f.Notes)
}
