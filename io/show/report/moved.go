package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// OfMoved says which national prices newer files have moved.
func OfMoved(moved []explain.PriceMove) Report {
	var r Report
	if len(moved) == 0 {
		r.text("No price moved.")
		return r
	}
	t := Table{Title: "Prices that moved", Columns: []string{"", "crop year", "was", "of", "is", "of", "change", "months known"}}
	for _, m := range moved {
		was, of, change, months := "-", "-", "new", "-"
		if m.Before != nil {
			was, of = wording.Decimal(&m.Before.Price), m.Before.AsOf
			change = withSign(m.Change)
		}
		if m.After.Sold != nil {
			months = fmt.Sprintf("%d: %s of 100 sold", m.After.Months, wording.InHundred(*m.After.Sold))
		}
		t.Rows = append(t.Rows, []string{m.Commodity.Name() + ", " + m.Commodity.Unit().Price(), fmt.Sprint(m.CropYear), was, of, wording.Decimal(&m.After.Price), m.After.AsOf, change, months})
	}
	r.table(t)
	return r
}

// withSign writes a change with its sign.
func withSign(p *answer.Price) string {
	if p.Value > 0 {
		return "+" + wording.Decimal(p)
	}
	return wording.Decimal(p)
}
