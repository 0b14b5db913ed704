package workbook

import (
	"fmt"

	"fencerow/io/show/workbook/cells"
	"fencerow/program/crop"
	"fencerow/sim/explain"
)

func (t *inputs) layYields() {
	t.Line(cells.Look{Bold: true}, "County yields, units per acre")
	t.Heads("county", "name", "crop", "crop year", "practice", "unit", "county yield", "status", "adjusted 1, oldest", "adjusted 2", "adjusted 3", "adjusted 4", "adjusted 5", "benchmark yield", "benchmark from")
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
	t.Gap()
}

func (t *inputs) layYield(key yieldKey, w explain.Working, b explain.WorkingBase, p explain.WorkingPractice) {
	format := cells.DecimalsFormat(w.Terms.YieldDecimals)
	row := []cells.Cell{cells.Plain(b.County), cells.Plain(b.CountyName), cells.Plain(w.Commodity.Name()), yearCell(key.cropYear), cells.Plain(string(p.Practice)), cells.Plain(w.Commodity.Unit().Yield())}
	row = append(row, inputOf(format, &p.CountyYield)...)
	for i := range w.History {
		if p.Adjusted == nil {
			row = append(row, cells.Plain("-"))
			continue
		}
		row = append(row, cells.Input(format, p.Adjusted[i]))
	}
	if p.Adjusted == nil {
		row = append(row, inputOf(format, &p.BenchmarkYield)[0])
	} else {
		row = append(row, cells.Plain("from the five"))
	}
	t.Add(append(row, cells.Plain(p.BenchmarkYield.Source))...)
	const yield, first, last, benchmark = 7, 9, 13, 14
	t.yields[key], t.benchmarks[key] = t.Last(yield), t.Last(benchmark)
	t.five[key] = cells.Between(t.Last(first), t.Last(last))
	named := []any{key.county, key.commodity, key.practice, key.cropYear}
	t.Name(t.Last(yield), append([]any{"county_yield"}, named...)...)
	t.Name(t.Last(benchmark), append([]any{"entered_benchmark_yield"}, named...)...)
	for i := range w.History {
		t.Name(t.Last(first+i), append([]any{"adjusted_yield", i + 1, "of"}, named...)...)
	}
}

func (t *inputs) layBases() {
	t.Line(cells.Look{Bold: true}, "Base acres, the same in every crop year here")
	titles := []string{"farm", "crop", "county", "name", "tract", "base acres", "PLC yield", "irrigated share", "in CRP, acres"}
	for _, year := range t.workings {
		titles = append(titles, fmt.Sprintf("acres cut for fruit and vegetables, %d", year.CropYear))
	}
	t.Heads(titles...)
	if len(t.workings) == 0 {
		return
	}
	for h, w := range t.workings[0].Commodities {
		for n, b := range w.Bases {
			t.layBase(h, n, w, b)
		}
	}
	t.Line(cells.Look{}, "The acres cut were worked out for the base acres in your file. Enter them again if you change base acres. Acres in CRP are not in the base acres and earn nothing.")
}

// layBase lays out the n-th base of the h-th commodity base.
func (t *inputs) layBase(h, n int, w explain.Working, b explain.WorkingBase) {
	acres := cells.DecimalsFormat(2)
	row := []cells.Cell{cells.Plain(t.farmName(w.Farm)), cells.Plain(w.Commodity.Name()), cells.Plain(b.County), cells.Plain(b.CountyName), cells.Plain(b.Tract), cells.Input(acres, b.BaseAcres)}
	if b.PaymentYield == nil {
		row = append(row, cells.Plain(cells.Unknown))
	} else {
		row = append(row, cells.Input(cells.DecimalsFormat(2), *b.PaymentYield))
	}
	row = append(row, irrigatedCell(w, b), cells.Figure(acres, b.CRPReduction))
	for _, year := range t.workings {
		row = append(row, cells.Input(acres, year.Commodities[h].Bases[n].CutAcres))
	}
	t.Add(row...)
	const base, paymentYield, irrigated, cut = 6, 7, 8, 10
	key := baseKey{w.Farm, w.Commodity, n}
	t.bases[key] = basePlaces{t.Last(base), t.Last(paymentYield), t.Last(irrigated)}
	named := []any{"of", w.Farm, w.Commodity, n + 1}
	t.Name(t.Last(base), append([]any{"base_acres"}, named...)...)
	t.Name(t.Last(paymentYield), append([]any{"payment_yield"}, named...)...)
	t.Name(t.Last(irrigated), append([]any{"irrigated_share"}, named...)...)
	for i, year := range t.workings {
		t.cuts[cutKey{key, year.CropYear}] = t.Last(cut + i)
	}
}

// irrigatedCell is the irrigated share: an input where both of the county's
// yields are known, and fixed where the sums can only be done for the one that
// is. A share that is not given is assumed: notes say so.
func irrigatedCell(w explain.Working, b explain.WorkingBase) cells.Cell {
	switch {
	case len(b.Practices) < 2:
		return cells.Plain("-")
	case usable(b.Practices[0]) && usable(b.Practices[1]):
		return cells.Input(cells.ShareFormat, b.IrrigatedShare)
	}
	return cells.Figure(cells.ShareFormat, b.IrrigatedShare)
}

// usable reports whether benchmark and county yield are known.
func usable(p explain.WorkingPractice) bool {
	return p.BenchmarkYield.Status != "" && p.CountyYield.Status != ""
}
