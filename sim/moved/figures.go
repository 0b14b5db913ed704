package moved

import (
	"slices"

	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Between returns a figure that changed, nothing where it did not.
func Between(by answer.Cause, what, before, after string) []answer.Changed {
	if before == after {
		return nil
	}
	return []answer.Changed{{By: by, What: what, Before: before, After: after}}
}

// Prices are the prices of a line that changed between two answers about the same record:
// of the year, the benchmark price and the effective reference price.
func Prices(before, after answer.CommodityPart) []answer.Changed {
	mean := func(part answer.CommodityPart) string {
		if part.MYA == nil {
			return ""
		}
		return priceText(&part.MYA.Mean)
	}
	return slices.Concat(Between(answer.CausePrice, "price", mean(before), mean(after)),
		Between(answer.CausePrice, "benchmark_price", priceText(before.BenchmarkPrice), priceText(after.BenchmarkPrice)),
		Between(answer.CausePrice, "effective_reference_price", priceText(before.EffectiveReferencePrice), priceText(after.EffectiveReferencePrice)))
}

func priceText(p *answer.Price) string {
	if p == nil {
		return ""
	}
	return program.Text(p.Value, p.Decimals)
}

// Yields are the county and benchmark yields of a line that changed between two answers
// about the same record.
func Yields(before, after answer.CommodityPart) (all []answer.Changed) {
	mean := func(b answer.BasePart) string {
		if b.CountyYield == nil {
			return ""
		}
		return text(&b.CountyYield.Mean)
	}
	for i := range min(len(before.Bases), len(after.Bases)) {
		old, now := before.Bases[i], after.Bases[i]
		for _, one := range slices.Concat(Between(answer.CauseCounty, "county_yield", mean(old), mean(now)), Between(answer.CauseCounty, "benchmark_yield", text(old.BenchmarkYield), text(now.BenchmarkYield))) {
			if one.County, one.CountyName = old.County, old.CountyName; old.Practice != string(farm.AllPractices) {
				one.Practice = old.Practice
			}
			if !slices.Contains(all, one) {
				all = append(all, one)
			}
		}
	}
	return all
}

// text writes a figure to two decimals.
func text(d *answer.Dollars) string {
	if d == nil {
		return ""
	}
	return program.Text(float64(*d), 2)
}

// Record are the figures of a farm's record that changed between two answers: base acres,
// PLC yield and the irrigated part of the base.
func Record(before, after answer.CommodityPart) []answer.Changed {
	return slices.Concat(Between(answer.CauseRecord, "base_acres", text(&before.BaseAcres), text(&after.BaseAcres)),
		Between(answer.CauseRecord, "payment_yield", text(before.PaymentYield), text(after.PaymentYield)),
		Between(answer.CauseRecord, "irrigated_base_acres", irrigated(before), irrigated(after)))
}

// irrigated are the base acres of a line that are paid by an irrigated yield, "" where its
// counties have none.
func irrigated(c answer.CommodityPart) string {
	acres, split := answer.Dollars(0), false
	for _, b := range c.Bases {
		if b.Practice == string(farm.Irrigated) {
			acres, split = acres+b.BaseAcres, true
		}
	}
	if !split {
		return ""
	}
	return text(&acres)
}
