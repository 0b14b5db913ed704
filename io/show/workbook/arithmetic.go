package workbook

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
	"fencerow/sim/answer"
)

// arithmetic is the sheet of steps that hold for a commodity in the nation and
// in a county, and where the outcomes stand on it.
type arithmetic struct {
	*sheet
	told     *told
	national map[priceKey]nationalPlaces
	county   map[yieldKey]countyPlaces
}

// nationalPlaces are the outcomes for a commodity and crop year.
type nationalPlaces struct {
	target, benchmark, loanRate, price, plcRate, plcMost place
	guaranteeShare, maximumShare, paymentAcreShare       place
}

// countyPlaces are the outcomes for a county and practice.
type countyPlaces struct{ guarantee, maximum, yield, revenue, rate place }

// Columns of the sheet: step, figure, unit, paragraph, status.
const figureColumn = 2

// layArithmetic lays out the steps of every commodity and county.
func layArithmetic(t *told) *arithmetic {
	a := &arithmetic{sheet: newSheet("County arithmetic", 64, 14, 10, 72, 12), told: t, national: map[priceKey]nationalPlaces{}, county: map[yieldKey]countyPlaces{}}
	a.line(look{title: true}, "County arithmetic, step by step")
	a.heads("step", "figure", "unit", "paragraph of law, or where from", "status")
	a.frozen = len(a.rows)
	t.eachHolding(func(y crop.CropYear, w answer.Working) {
		key := priceKey{w.Commodity, y}
		if _, laid := a.national[key]; !laid {
			a.layNational(key, w)
		}
		for _, b := range w.Bases {
			for _, p := range b.Practices {
				at := yieldKey{b.County, w.Commodity, p.Practice, y}
				if _, laid := a.county[at]; !laid {
					a.layCounty(at, w, b, p)
				}
			}
		}
	})
	return a
}

// step appends one step and returns where its figure stands.
func (a *arithmetic) step(name string, c cell, unit, source string, status crop.Status) place {
	a.add(plain(name), c, plain(unit), plain(source), plain(string(status)))
	return a.last(figureColumn)
}

// law appends a figure of the law as it stands in its row.
func (a *arithmetic) law(name, format string, x float64, unit string, row law.Figure, status crop.Status) place {
	return a.step(name, cell{value: x, look: look{format: format, law: true}}, unit, row.Citation(), status)
}

// share appends a share of the law.
func (a *arithmetic) share(name string, x float64, row law.Figure) place {
	return a.law(name, shareFormat, x, "share", row, row.Status)
}

// rounded is a formula rounded as the law does.
func (a *arithmetic) rounded(decimals int, text string, of ...reference) cell {
	return a.calc(decimalsFormat(decimals), rounded(decimals, text), of...)
}

func (a *arithmetic) layNational(key priceKey, w answer.Working) {
	terms, unit := w.Terms, w.Commodity.Unit().Price()
	fine := max(terms.PriceDecimals, terms.RateDecimals)
	a.gap()
	a.line(look{bold: true}, fmt.Sprintf("%s, crop year %d: national prices", capital(w.Commodity.Name()), key.cropYear))
	reference := a.law("reference price", decimalsFormat(referenceDecimals(terms)), terms.ReferencePrice, unit, terms.Rows["reference_price"], terms.Status("reference_price", "reference_price_step"))
	loan := a.law("loan rate", decimalsFormat(fine), terms.LoanRate, unit, terms.Rows["loan_rate"], terms.Status("loan_rate"))
	past := a.pastPrices(w)
	target := a.target(w, reference, past)
	if w.Target == nil {
		target = place{}
	}
	benchmark := a.benchmarkPrice(w, past, target)
	price := a.step("mean price of the crop year", a.same(decimalsFormat(terms.PriceDecimals), a.told.prices[key]), unit, "What was told", "")
	higher := a.step("higher of it and the loan rate", a.calc(decimalsFormat(fine), "MAX(?,?)", price, loan), unit, "7 U.S.C. 9016(b), 9017(b)(3)", "")
	n := nationalPlaces{target: target, benchmark: benchmark, loanRate: loan, price: higher}
	n.plcRate = a.step("PLC rate: target less that, not below 0", a.rounded(terms.RateDecimals, "MAX(0,?-?)", target, higher), unit, "7 U.S.C. 9016(a), (c)", "")
	n.plcMost = a.step("highest PLC rate, at the loan rate and below", a.rounded(terms.RateDecimals, "MAX(0,?-?)", target, loan), unit, "7 U.S.C. 9016(a), (c)", "")
	n.guaranteeShare = a.share("guarantee, part of the benchmark revenue", terms.GuaranteeShare, terms.Rows["guarantee_share"])
	n.maximumShare = a.share("part of it paid at most", terms.MaximumShare, terms.Rows["maximum_share"])
	n.paymentAcreShare = a.share("part of base acres paid on", terms.PaymentAcreShare, terms.Rows["payment_acre_share"])
	a.national[key] = n
	a.name(target, "target_price", w.Commodity, key.cropYear)
	a.name(benchmark, "benchmark_price", w.Commodity, key.cropYear)
	a.name(n.plcRate, "plc_rate", w.Commodity, key.cropYear)
	a.name(reference, "reference_price", w.Commodity, key.cropYear)
	a.name(loan, "loan_rate", w.Commodity, key.cropYear)
}

// pastPrices appends the five past prices.
func (a *arithmetic) pastPrices(w answer.Working) span {
	var five span
	for i, p := range w.History {
		of := a.told.past[priceKey{w.Commodity, p.CropYear}]
		at := a.step(fmt.Sprintf("price of crop year %d", p.CropYear), a.same(decimalsFormat(w.Terms.PriceDecimals), of), w.Commodity.Unit().Price(), p.Source, p.Status)
		five = five.with(i == 0, at)
	}
	return five
}

// with extends a range by a place; a place that is not known spoils it.
func (r span) with(first bool, at place) span {
	switch {
	case !at.known() || !first && !r.from.known():
		return span{}
	case first:
		return span{at, at}
	}
	return span{r.from, at}
}

// target appends the steps to what PLC pays up to.
func (a *arithmetic) target(w answer.Working, reference place, past span) place {
	terms, unit := w.Terms, w.Commodity.Unit().Price()
	const source = "7 U.S.C. 9011(8)"
	if !terms.HasEffective {
		return a.step("target price: the reference price", a.same(decimalsFormat(referenceDecimals(terms)), reference), unit, terms.Rows["reference_price"].Citation(), "")
	}
	limit := a.share("effective reference price at most this part of the reference price", terms.EffectiveLimit, terms.Rows["effective_reference_price_limit"])
	share := a.share("part of the average of five prices", terms.AverageShare, terms.Rows["reference_price_average_share"])
	average := a.step("average of the middle three of five prices", a.olympic(shareFormat, past), unit, source+"(B)(ii)", "")
	most := a.step("most there can be", a.rounded(terms.PriceDecimals, "?*?", limit, reference), unit, source+"(A)", "")
	part := a.step("part of the average", a.rounded(terms.PriceDecimals, "?*?", share, average), unit, source+"(B)(ii)", "")
	status := crop.Status("")
	if w.Target != nil {
		status = w.Target.Status
	}
	return a.step("target price: the effective reference price", a.rounded(terms.PriceDecimals, "MIN(?,MAX(?,?))", most, reference, part), unit, source+"(B)(i)", status)
}

// olympic is the average without one highest and one lowest, not rounded.
func (a *arithmetic) olympic(format string, five span) cell {
	return a.calc(format, olympicText, five, five, five)
}

// benchmarkPrice appends the steps to the benchmark price of ARC-CO.
func (a *arithmetic) benchmarkPrice(w answer.Working, past span, target place) place {
	var raised span
	unit := w.Commodity.Unit().Price()
	const source = "7 U.S.C. 9017(c)(2)(B), (c)(6)"
	format := decimalsFormat(max(w.Terms.PriceDecimals, w.Terms.RateDecimals))
	for i, p := range w.History {
		own := place{}
		if past.from.known() {
			own = place{past.from.on, past.from.column, past.from.row + i}
		}
		at := a.step(fmt.Sprintf("price of %d, raised to the target price", p.CropYear), a.calc(format, "MAX(?,?)", own, target), unit, source, "")
		raised = raised.with(i == 0, at)
	}
	status := crop.Status("")
	if w.Benchmark != nil {
		status = w.Benchmark.Status
	}
	average := a.rounded(w.Terms.BenchmarkDecimals, olympicText, raised, raised, raised)
	return a.step("benchmark price: average of the middle three", average, unit, source, status)
}

// layCounty appends the steps of a county and practice.
func (a *arithmetic) layCounty(key yieldKey, w answer.Working, b answer.WorkingBase, p answer.WorkingPractice) {
	const revenue = "USD/acre"
	unit, national := w.Commodity.Unit().Yield(), a.national[priceKey{w.Commodity, key.cropYear}]
	decimals := w.Terms.YieldDecimals
	a.gap()
	a.line(look{bold: true}, fmt.Sprintf("%s, crop year %d: %s", capital(w.Commodity.Name()), key.cropYear, placeName("county "+b.County, b.CountyName, practiceWord(p.Practice))))
	benchmarkCell := a.same(decimalsFormat(decimals), a.told.benchmarks[key])
	if p.Adjusted != nil {
		five := a.told.five[key]
		benchmarkCell = a.rounded(decimals, olympicText, five, five, five)
	}
	yield := a.step("benchmark yield: average of the middle three of five adjusted yields", benchmarkCell, unit, "7 U.S.C. 9017(c)(2)(A)", p.BenchmarkYield.Status)
	benchmark := a.step("benchmark revenue: yield times benchmark price", a.rounded(2, "?*?", yield, national.benchmark), revenue, "7 U.S.C. 9017(c)(2)", "")
	c := countyPlaces{}
	c.guarantee = a.step("guarantee", a.rounded(2, "?*?", national.guaranteeShare, benchmark), revenue, "7 U.S.C. 9017(c)(1)", "")
	c.maximum = a.step("most paid", a.rounded(2, "?*?", national.maximumShare, benchmark), revenue, "7 U.S.C. 9017(d)(1)(B)", "")
	c.yield = a.step("county yield of the crop year", a.rounded(decimals, "?", a.told.yields[key]), unit, "What was told; "+p.CountyYield.Source, p.CountyYield.Status)
	c.revenue = a.step("actual revenue: county yield times the higher price", a.rounded(2, "?*?", c.yield, national.price), revenue, "7 U.S.C. 9017(b)(1)", "")
	c.rate = a.step("ARC-CO rate: guarantee less that, not below 0, not above the most", a.rate(c.guarantee, c.maximum, c.revenue), revenue, "7 U.S.C. 9017(d)", "")
	a.county[key] = c
	named := []any{key.county, key.commodity, key.practice, key.cropYear}
	a.name(yield, append([]any{"benchmark_yield"}, named...)...)
	a.name(c.guarantee, append([]any{"guarantee"}, named...)...)
	a.name(c.maximum, append([]any{"maximum"}, named...)...)
	a.name(c.revenue, append([]any{"actual_revenue"}, named...)...)
	a.name(a.last(figureColumn), append([]any{"arc_co_rate"}, named...)...)
}

// olympicText is the formula of an average of five without one highest and one
// lowest.
const olympicText = "(SUM(?)-MIN(?)-MAX(?))/3"

// rateText is the formula of the ARC-CO payment rate from the most paid, the
// guarantee and the formula of the actual revenue.
func rateText(revenue string) string {
	return "MIN(?,MAX(0," + rounded(2, "(?-"+revenue+")") + "))"
}

// rate is the ARC-CO payment rate in USD per acre.
func (s *sheet) rate(guarantee, maximum, revenue place) cell {
	return s.calc(moneyFormat, rateText("?"), maximum, guarantee, revenue)
}

// practiceWord says the practice where the county has two.
func practiceWord(p farm.Practice) string {
	if p == farm.AllPractices {
		return ""
	}
	return string(p)
}

// referenceDecimals shows a stepped reference price in full.
func referenceDecimals(t program.Terms) int {
	const most = 8
	decimals := max(t.PriceDecimals, t.RateDecimals)
	for decimals < most && program.Round(t.ReferencePrice, decimals) != t.ReferencePrice {
		decimals++
	}
	return decimals
}
