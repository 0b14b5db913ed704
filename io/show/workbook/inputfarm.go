package workbook

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/sim/explain"
)

func (t *inputs) layYields() {
	t.line(look{bold: true}, "County yields, units per acre")
	t.heads("county", "name", "crop", "crop year", "practice", "unit", "county yield", "status", "adjusted 1, oldest", "adjusted 2", "adjusted 3", "adjusted 4", "adjusted 5", "benchmark yield", "benchmark from")
	t.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		for _, b := range w.Bases {
			for _, p := range b.Practices {
				key := yieldKey{b.County, w.Commodity, p.Practice, y}
				if _, laid := t.yields[key]; !laid {
					t.layYield(key, w, b, p)
				}
			}
		}
	})
	t.gap()
}

func (t *inputs) layYield(key yieldKey, w explain.Working, b explain.WorkingBase, p explain.WorkingPractice) {
	format := decimalsFormat(w.Terms.YieldDecimals)
	row := []cell{plain(b.County), plain(b.CountyName), plain(w.Commodity.Name()), yearCell(key.cropYear), plain(string(p.Practice)), plain(w.Commodity.Unit().Yield())}
	row = append(row, inputOf(format, &p.CountyYield)...)
	for i := range w.History {
		if p.Adjusted == nil {
			row = append(row, plain("-"))
			continue
		}
		row = append(row, input(format, p.Adjusted[i]))
	}
	if p.Adjusted == nil {
		row = append(row, inputOf(format, &p.BenchmarkYield)[0])
	} else {
		row = append(row, plain("from the five"))
	}
	t.add(append(row, plain(p.BenchmarkYield.Source))...)
	const yield, first, last, benchmark = 7, 9, 13, 14
	t.yields[key], t.benchmarks[key] = t.last(yield), t.last(benchmark)
	t.five[key] = span{t.last(first), t.last(last)}
	named := []any{key.county, key.commodity, key.practice, key.cropYear}
	t.name(t.last(yield), append([]any{"county_yield"}, named...)...)
	t.name(t.last(benchmark), append([]any{"entered_benchmark_yield"}, named...)...)
	for i := range w.History {
		t.name(t.last(first+i), append([]any{"adjusted_yield", i + 1, "of"}, named...)...)
	}
}

func (t *inputs) layBases() {
	t.line(look{bold: true}, "Base acres, the same in every crop year here")
	titles := []string{"farm", "crop", "county", "name", "tract", "base acres", "PLC yield", "irrigated share", "in CRP, acres"}
	for _, year := range t.workings {
		titles = append(titles, fmt.Sprintf("acres cut for fruit and vegetables, %d", year.CropYear))
	}
	t.heads(titles...)
	if len(t.workings) == 0 {
		return
	}
	for h, w := range t.workings[0].Commodities {
		for n, b := range w.Bases {
			t.layBase(h, n, w, b)
		}
	}
	t.line(look{}, "The acres cut were worked out for the base acres in your file. Enter them again if you change base acres. Acres in CRP are not in the base acres and earn nothing.")
}

// layBase lays out the n-th base of the h-th commodity base.
func (t *inputs) layBase(h, n int, w explain.Working, b explain.WorkingBase) {
	acres := decimalsFormat(2)
	row := []cell{plain(t.farmName(w.Farm)), plain(w.Commodity.Name()), plain(b.County), plain(b.CountyName), plain(b.Tract), input(acres, b.BaseAcres)}
	if b.PaymentYield == nil {
		row = append(row, plain(unknown))
	} else {
		row = append(row, input(decimalsFormat(2), *b.PaymentYield))
	}
	row = append(row, irrigatedCell(w, b), figure(acres, b.CRPReduction))
	for _, year := range t.workings {
		row = append(row, input(acres, year.Commodities[h].Bases[n].CutAcres))
	}
	t.add(row...)
	const base, paymentYield, irrigated, cut = 6, 7, 8, 10
	key := baseKey{w.Farm, w.Commodity, n}
	t.bases[key] = basePlaces{t.last(base), t.last(paymentYield), t.last(irrigated)}
	named := []any{"of", w.Farm, w.Commodity, n + 1}
	t.name(t.last(base), append([]any{"base_acres"}, named...)...)
	t.name(t.last(paymentYield), append([]any{"payment_yield"}, named...)...)
	t.name(t.last(irrigated), append([]any{"irrigated_share"}, named...)...)
	for i, year := range t.workings {
		t.cuts[cutKey{key, year.CropYear}] = t.last(cut + i)
	}
}

// irrigatedCell is the irrigated share: an input where both of the county's
// yields are known, and fixed where the sums can only be done for the one that
// is. A share that is not given is assumed: notes say so.
func irrigatedCell(w explain.Working, b explain.WorkingBase) cell {
	switch {
	case len(b.Practices) < 2:
		return plain("-")
	case usable(b.Practices[0]) && usable(b.Practices[1]):
		return input(shareFormat, b.IrrigatedShare)
	}
	return figure(shareFormat, b.IrrigatedShare)
}

// usable reports whether benchmark and county yield are known.
func usable(p explain.WorkingPractice) bool {
	return p.BenchmarkYield.Status != "" && p.CountyYield.Status != ""
}
