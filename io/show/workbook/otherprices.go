package workbook

import (
	"strings"

	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// otherPrices is the sheet of payments at other prices and county yields.
type otherPrices struct {
	*cells.Sheet
	results *results
	parts   cells.Span // of the mean price and the mean county yields
	tables  map[commodityBaseKey]otherTable
}

// otherTable is where a commodity base's table stands: the five prices, and the first
// payment of PLC and of ARC-CO.
type otherTable struct{ prices, plc, arc cells.Place }

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
func margin() []cells.Cell {
	return []cells.Cell{cells.Plain(""), cells.Plain(""), cells.Plain(""), cells.Plain("")}
}

// layOtherPrices lays out a table and a chart for every farm and commodity.
func layOtherPrices(o *results) *otherPrices {
	p := &otherPrices{Sheet: cells.NewSheet("Other prices", 36, 11, 11, 11, 11, 11, 11, 11, 11, 11, 3, 11), results: o, tables: map[commodityBaseKey]otherTable{}}
	p.Line(cells.Look{Title: true}, "Other prices and county yields: dollars per base acre")
	row := append([]cells.Cell{cells.Plain("Part of the price and county yield used")}, margin()...)
	for _, part := range otherParts {
		row = append(row, cells.Input(cells.PartFormat, part))
	}
	p.Add(row...)
	p.parts = cells.Between(p.Last(otherARCColumn), p.Last(otherARCColumn+len(otherParts)-1))
	p.Frozen = len(p.Rows)
	first := crop.CropYear(0)
	o.bases.inputs.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
		switch {
		case first == 0:
			first = y
		case y != first && p.Paper.Rows == 0: // later crop years are for the screen
			p.Paper.Rows, p.Paper.Columns = len(p.Rows), chartColumn+8
		}
		p.layCommodityBase(commodityBaseKey{w.Farm, w.Commodity, y}, w)
	})
	return p
}

// part is the i-th part.
func (p *otherPrices) part(i int) cells.Place {
	return cells.At(p.Sheet, p.parts.From.Column+i, p.parts.From.Row)
}

func (p *otherPrices) layCommodityBase(key commodityBaseKey, w explain.Working) {
	p.Gap()
	p.Line(cells.Look{Bold: true}, cells.CommodityBaseName(p.results.bases.inputs.farmName(w.Farm), w.Commodity, key.cropYear))
	top := len(p.Rows)
	price := p.results.bases.inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: key.cropYear}].Price
	if !price.Known() {
		p.Line(cells.Look{}, "Unknown: no price is projected.")
		return
	}
	all := p.results.basesOf(key, w)
	paid := p.results.of[key]
	prices := cells.At(p.Sheet, otherPriceColumn, len(p.Rows)+1+p.ratesHeight(w, all)+2)
	var rates []cells.Place
	for n, b := range all {
		if rate := p.layRates(w, n, b, prices); rate.Known() {
			rates = append(rates, rate)
		}
	}
	p.layPayments(key, w, all, rates)
	p.tables[key] = otherTable{prices: prices, plc: cells.At(p.Sheet, otherPLCColumn, prices.Row), arc: cells.At(p.Sheet, otherARCColumn, prices.Row)}
	p.chartOf(key, top, prices, paid)
	for len(p.Rows) < top+chartRows {
		p.Gap()
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
	return w.ARCMissing == "" && b.guarantee.Known() && b.maximum.Known()
}

// layRates lays out the ARC-CO rates of one base by price and county yield, and
// returns where the first stands; none where they are not known.
func (p *otherPrices) layRates(w explain.Working, n int, b baseYear, prices cells.Place) cells.Place {
	if !p.hasRates(w, b) {
		return cells.Place{}
	}
	yields := p.layYields(w, w.Bases[n], b)
	p.Line(cells.Look{}, cells.PlaceName("ARC-CO rate, $/acre: price down, county yield across", w.Bases[n].Tract))
	first := cells.At(p.Sheet, otherARCColumn, len(p.Rows)+1)
	for i := range otherParts {
		higher := cells.At(p.Sheet, otherHigherColumn, prices.Row+i)
		row := append([]cells.Cell{cells.Plain("")}, margin()...)
		row[otherPriceColumn-1] = p.Same(cells.DecimalsFormat(w.Terms.PriceDecimals), cells.At(p.Sheet, otherPriceColumn, higher.Row))
		for j := range otherParts {
			row = append(row, p.rateAt(b, yields, j, higher))
		}
		p.Add(row...)
	}
	return first
}

// layYields lays out the county yields at each part of the mean and returns
// where the first of each practice stands.
func (p *otherPrices) layYields(w explain.Working, base explain.WorkingBase, b baseYear) (yields []cells.Place) {
	decimals := w.Terms.YieldDecimals
	for k, county := range b.counties {
		practice := farm.AllPractices
		if len(b.counties) == 2 {
			practice = []farm.Practice{farm.Irrigated, farm.Nonirrigated}[k]
		}
		row := append([]cells.Cell{cells.Plain(cells.PlaceName("County yield", base.CountyName, practiceWord(practice)))}, margin()...)
		for j := range otherParts {
			row = append(row, p.Calc(cells.DecimalsFormat(decimals), cells.Rounded(decimals, "?*?"), county.Yield, p.part(j)))
		}
		p.Add(row...)
		yields = append(yields, p.Last(otherARCColumn))
	}
	return yields
}

// rateAt is the ARC-CO rate of a base at a price, already the higher of it and
// the loan rate, and the j-th county yields.
func (p *otherPrices) rateAt(b baseYear, yields []cells.Place, j int, price cells.Place) cells.Cell {
	revenue := weighted(cells.Rounded(2, "?*?"), len(yields))
	args := []cells.Reference{b.maximum, b.guarantee}
	for k, first := range yields {
		if len(yields) == 2 {
			args = append(args, b.irrigated)
		}
		args = append(args, cells.At(p.Sheet, first.Column+j, yields[k].Row), price)
	}
	return p.Calc(cells.MoneyFormat, rateText(revenue), args...)
}

// layPayments lays out the payments per base acre. rates are the first ARC-CO
// rates of each base.
func (p *otherPrices) layPayments(key commodityBaseKey, w explain.Working, all []baseYear, rates []cells.Place) {
	national := p.results.bases.inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: key.cropYear}]
	acres := p.acresCell(all)
	p.Add(cells.Plain("Base acres"), acres)
	base := p.Last(2)
	p.Heads("dollars per base acre", "price, $/"+strings.TrimPrefix(w.Commodity.Unit().Price(), "USD/"), "higher of it and loan rate", "PLC rate", "PLC", "ARC-CO, county yield 1", "ARC-CO, county yield 2", "ARC-CO, county yield 3", "ARC-CO, county yield 4", "ARC-CO, county yield 5")
	decimals, rateDecimals := w.Terms.PriceDecimals, w.Terms.RateDecimals
	fine := max(decimals, rateDecimals)
	mean := p.results.bases.inputs.book.Prices[front.CropKey{Commodity: w.Commodity, CropYear: key.cropYear}].Price
	for i := range otherParts {
		here := func(column int) cells.Place { return cells.At(p.Sheet, column, len(p.Rows)+1) }
		row := []cells.Cell{cells.Plain(""), p.Calc(cells.DecimalsFormat(decimals), cells.Rounded(decimals, "?*?"), mean, p.part(i)),
			p.Calc(cells.DecimalsFormat(fine), "MAX(?,?)", here(otherPriceColumn), national.LoanRate),
			p.Calc(cells.DecimalsFormat(rateDecimals), cells.Rounded(rateDecimals, "MAX(0,?-?)"), national.Effective, here(otherHigherColumn)), cells.Plain(cells.Unknown)}
		if w.PLCMissing == "" {
			row[otherPLCColumn-1] = perAcre(p.Sheet, base, "?*?*?", each(all, func(b baseYear) []cells.Reference {
				return []cells.Reference{here(otherRateColumn), b.paymentYield, b.paymentAcres}
			}))
		}
		for j := range otherParts {
			row = append(row, p.arcAt(base, all, rates, i, j))
		}
		p.Add(row...)
	}
}

// arcAt is the ARC-CO payment at the i-th price and j-th county yields.
func (p *otherPrices) arcAt(base cells.Place, all []baseYear, rates []cells.Place, i, j int) cells.Cell {
	if len(rates) != len(all) || len(all) == 0 {
		return cells.Plain(cells.Unknown)
	}
	var terms [][]cells.Reference
	for n, b := range all {
		terms = append(terms, []cells.Reference{cells.At(p.Sheet, rates[n].Column+j, rates[n].Row+i), b.paymentAcres})
	}
	return perAcre(p.Sheet, base, "?*?", terms)
}

// acresCell adds the base acres of a commodity base.
func (p *otherPrices) acresCell(all []baseYear) cells.Cell {
	return sum(p.Sheet, cells.DecimalsFormat(2), each(all, func(b baseYear) cells.Place { return b.acres }))
}
