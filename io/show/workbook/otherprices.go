package workbook

import (
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// otherPrices is the sheet of payments at other prices and county yields.
type otherPrices struct {
	*sheet
	results *results
	parts   span // of the mean price and the mean county yields
	tables  map[commodityBaseKey]otherTable
}

// otherTable is where a commodity base's table stands: the five prices, and the first
// payment of PLC and of ARC-CO.
type otherTable struct{ prices, plc, arc place }

// otherParts are the parts at first; each can be changed.
var otherParts = answer.OtherParts

// Columns of the sheet: labels, price, the higher of it and the loan rate, PLC
// rate, PLC, then ARC-CO by county yield.
const (
	otherPriceColumn  = 2
	otherHigherColumn = 3
	otherRateColumn   = 4
	otherPLCColumn    = 5
	otherARCColumn    = 6
	chartColumn       = 12
)

// margin is the cells between the label and the first county yield.
func margin() []cell { return []cell{plain(""), plain(""), plain(""), plain("")} }

// layOtherPrices lays out a table and a chart for every farm and commodity.
func layOtherPrices(o *results) *otherPrices {
	p := &otherPrices{sheet: newSheet("Other prices", 36, 11, 11, 11, 11, 11, 11, 11, 11, 11, 3, 11), results: o, tables: map[commodityBaseKey]otherTable{}}
	p.line(look{title: true}, "Other prices and county yields: dollars per base acre")
	row := append([]cell{plain("Part of the price and county yield used")}, margin()...)
	for _, part := range otherParts {
		row = append(row, input(partFormat, part))
	}
	p.add(row...)
	p.parts = span{p.last(otherARCColumn), p.last(otherARCColumn + len(otherParts) - 1)}
	p.frozen = len(p.rows)
	o.bases.arithmetic.inputs.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		p.layCommodityBase(commodityBaseKey{w.Farm, w.Commodity, y}, w)
	})
	return p
}

// part is the i-th part.
func (p *otherPrices) part(i int) place {
	return place{p.sheet, p.parts.from.column + i, p.parts.from.row}
}

func (p *otherPrices) layCommodityBase(key commodityBaseKey, w explain.Working) {
	p.gap()
	p.line(look{bold: true}, commodityBaseName(p.results.bases.arithmetic.inputs.farmName(w.Farm), w.Commodity, key.cropYear))
	top := len(p.rows)
	price := p.results.bases.arithmetic.inputs.prices[priceKey{w.Commodity, key.cropYear}]
	if !price.known() {
		p.line(look{}, "Unknown: no price is projected.")
		return
	}
	all := p.results.basesOf(key, w)
	paid := p.results.of[key]
	prices := place{p.sheet, otherPriceColumn, len(p.rows) + 1 + p.ratesHeight(w, all) + 2}
	var rates []place
	for n, b := range all {
		if rate := p.layRates(w, n, b, prices); rate.known() {
			rates = append(rates, rate)
		}
	}
	p.layPayments(key, w, all, rates)
	p.tables[key] = otherTable{prices: prices, plc: place{p.sheet, otherPLCColumn, prices.row}, arc: place{p.sheet, otherARCColumn, prices.row}}
	p.chartOf(key, top, prices, paid)
	for len(p.rows) < top+chartRows {
		p.gap()
	}
}

// ratesHeight is the number of rows that layRates will take.
func (p *otherPrices) ratesHeight(w explain.Working, all []baseYear) int {
	rows := 0
	for _, b := range all {
		if p.hasRates(w, b) {
			rows += len(b.counties) + 1 + len(otherParts)
		}
	}
	return rows
}

// hasRates reports whether ARC-CO rates can be worked out.
func (p *otherPrices) hasRates(w explain.Working, b baseYear) bool {
	return w.ARCMissing == "" && b.guarantee.known() && b.maximum.known()
}

// layRates lays out the ARC-CO rates of one base by price and county yield, and
// returns where the first stands; none where they are not known.
func (p *otherPrices) layRates(w explain.Working, n int, b baseYear, prices place) place {
	if !p.hasRates(w, b) {
		return place{}
	}
	yields := p.layYields(w, w.Bases[n], b)
	p.line(look{}, placeName("ARC-CO rate, $/acre: price down, county yield across", w.Bases[n].Tract))
	first := place{p.sheet, otherARCColumn, len(p.rows) + 1}
	for i := range otherParts {
		higher := place{p.sheet, otherHigherColumn, prices.row + i}
		row := append([]cell{plain("")}, margin()...)
		row[otherPriceColumn-1] = p.same(decimalsFormat(w.Terms.PriceDecimals), place{p.sheet, otherPriceColumn, higher.row})
		for j := range otherParts {
			row = append(row, p.rateAt(b, yields, j, higher))
		}
		p.add(row...)
	}
	return first
}

// layYields lays out the county yields at each part of the mean and returns
// where the first of each practice stands.
func (p *otherPrices) layYields(w explain.Working, base explain.WorkingBase, b baseYear) (yields []place) {
	decimals := w.Terms.YieldDecimals
	for k, county := range b.counties {
		practice := farm.AllPractices
		if len(b.counties) == 2 {
			practice = []farm.Practice{farm.Irrigated, farm.Nonirrigated}[k]
		}
		row := append([]cell{plain(placeName("County yield", base.CountyName, practiceWord(practice)))}, margin()...)
		for j := range otherParts {
			row = append(row, p.calc(decimalsFormat(decimals), rounded(decimals, "?*?"), county.yield, p.part(j)))
		}
		p.add(row...)
		yields = append(yields, p.last(otherARCColumn))
	}
	return yields
}

// rateAt is the ARC-CO rate of a base at a price, already the higher of it and
// the loan rate, and the j-th county yields.
func (p *otherPrices) rateAt(b baseYear, yields []place, j int, price place) cell {
	revenue := weighted(rounded(2, "?*?"), len(yields))
	args := []reference{b.maximum, b.guarantee}
	for k, first := range yields {
		if len(yields) == 2 {
			args = append(args, b.irrigated)
		}
		args = append(args, place{p.sheet, first.column + j, yields[k].row}, price)
	}
	return p.calc(moneyFormat, rateText(revenue), args...)
}

// layPayments lays out the payments per base acre. rates are the first ARC-CO
// rates of each base.
func (p *otherPrices) layPayments(key commodityBaseKey, w explain.Working, all []baseYear, rates []place) {
	national := p.results.bases.arithmetic.national[priceKey{w.Commodity, key.cropYear}]
	acres := p.acresCell(all)
	p.add(plain("Base acres"), acres)
	base := p.last(2)
	p.heads("dollars per base acre", "price, $/"+strings.TrimPrefix(w.Commodity.Unit().Price(), "USD/"), "higher of it and loan rate", "PLC rate", "PLC", "ARC-CO, county yield 1", "ARC-CO, county yield 2", "ARC-CO, county yield 3", "ARC-CO, county yield 4", "ARC-CO, county yield 5")
	decimals, rateDecimals := w.Terms.PriceDecimals, w.Terms.RateDecimals
	fine := max(decimals, rateDecimals)
	mean := p.results.bases.arithmetic.inputs.prices[priceKey{w.Commodity, key.cropYear}]
	for i := range otherParts {
		here := func(column int) place { return place{p.sheet, column, len(p.rows) + 1} }
		row := []cell{plain(""), p.calc(decimalsFormat(decimals), rounded(decimals, "?*?"), mean, p.part(i)),
			p.calc(decimalsFormat(fine), "MAX(?,?)", here(otherPriceColumn), national.loanRate),
			p.calc(decimalsFormat(rateDecimals), rounded(rateDecimals, "MAX(0,?-?)"), national.effective, here(otherHigherColumn)), plain(unknown)}
		if w.PLCMissing == "" {
			row[otherPLCColumn-1] = p.perAcre(base, "?*?*?", each(all, func(b baseYear) []reference {
				return []reference{here(otherRateColumn), b.paymentYield, b.paymentAcres}
			}))
		}
		for j := range otherParts {
			row = append(row, p.arcAt(base, all, rates, i, j))
		}
		p.add(row...)
	}
}

// arcAt is the ARC-CO payment at the i-th price and j-th county yields.
func (p *otherPrices) arcAt(base place, all []baseYear, rates []place, i, j int) cell {
	if len(rates) != len(all) || len(all) == 0 {
		return plain(unknown)
	}
	var terms [][]reference
	for n, b := range all {
		terms = append(terms, []reference{place{p.sheet, rates[n].column + j, rates[n].row + i}, b.paymentAcres})
	}
	return p.perAcre(base, "?*?", terms)
}

// acresCell adds the base acres of a commodity base.
func (p *otherPrices) acresCell(all []baseYear) cell {
	return p.sum(decimalsFormat(2), each(all, func(b baseYear) place { return b.acres }))
}
