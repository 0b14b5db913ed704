package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/explain"
)

// OfMarket lists the prices that answers rest on.
func OfMarket(v explain.MarketView) Report {
	var r Report
	r.heading(1, fmt.Sprintf("National prices of %s, seen on %s", wording.Date(v.Market.AsOf), wording.Date(v.Today)))
	r.text(v.Market.Source)
	t := Table{Title: "National price for the marketing year; 8 of 10 outcomes end between low and high", Columns: []string{"", "crop year", "price", "low", "high", "status", "USDA"}}
	var sources []string
	for _, p := range v.Prices {
		usda := "-"
		if p.USDA != nil {
			usda = wording.Decimal(p.USDA)
		}
		t.Rows = append(t.Rows, []string{p.Commodity.Name() + ", " + p.Commodity.Unit().Price(), fmt.Sprint(p.CropYear), wording.Decimal(&p.Mean), wording.Decimal(&p.Low), wording.Decimal(&p.High), string(p.Status), usda})
		text := fmt.Sprintf("%s %d: %s. Range: %s.", wording.Capital(p.Commodity.Name()), p.CropYear, p.Source, p.SDFrom)
		if p.Stale {
			text += fmt.Sprintf(" Old: of %s.", wording.Date(p.AsOf))
		}
		if p.USDA != nil {
			text += " USDA: " + p.USDASource + "."
		}
		sources = append(sources, text)
	}
	if len(t.Rows) == 0 {
		r.text("No price is known or projected for these crops and crop years.")
	} else {
		r.table(t)
		r.notes(sources)
	}
	r.caution(v.Caution)
	return r
}
