package workbook

import (
	"fmt"

	"fencerow/io/show/workbook/cells"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

// arithmetic is the sheet of steps that hold for a commodity in the nation and
// in a county, and where the results stand on it.
type arithmetic struct {
	*cells.Sheet
	inputs   *inputs
	national map[priceKey]nationalPlaces
	county   map[yieldKey]countyPlaces
}

// nationalPlaces are the results for a commodity and crop year.
type nationalPlaces struct {
	effective, benchmark, loanRate, price, plcRate, plcMost cells.Place
	guaranteeShare, maximumShare, paymentAcreShare          cells.Place
}

// countyPlaces are the results for a county and practice.
type countyPlaces struct{ guarantee, maximum, yield, revenue, rate cells.Place }

// Columns of the sheet: step, figure, unit, paragraph, status.
const figureColumn = 2

// layArithmetic lays out the steps of every commodity and county.
func layArithmetic(t *inputs) *arithmetic {
	a := &arithmetic{Sheet: cells.NewSheet("Step by step", 64, 14, 10, 72, 12), inputs: t, national: map[priceKey]nationalPlaces{}, county: map[yieldKey]countyPlaces{}}
	a.Line(cells.Look{Title: true}, "Step by step: national prices, then counties")
	a.Heads("step", "figure", "unit", "paragraph of law, or where it comes from", "status")
	a.Frozen = len(a.Rows)
	t.eachCommodityBase(func(y crop.CropYear, w explain.Working) {
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

// line is a step of the program as the sheet prints it.
type line struct {
	of        program.Step
	commodity crop.Commodity
	more      string // of the title: the year
	from      string // where an entered figure is from, or a row's citation; after the step's citation
	status    crop.Status
}

// lineOf is the line of a step of a commodity.
func lineOf(w explain.Working, of program.Step) line { return line{of: of, commodity: w.Commodity} }

// step appends one step and returns where its figure stands.
func (a *arithmetic) step(l line, c cells.Cell) cells.Place {
	unit := l.of.UnitFor(l.commodity)
	if unit == "1" {
		unit = "share"
	}
	a.Add(cells.Plain(l.of.Title+l.more), c, cells.Plain(unit), cells.Plain(joined(l.of.Citation, l.from)), cells.Plain(string(l.status)))
	return a.Last(figureColumn)
}

// joined puts a semicolon between what is there of two texts.
func joined(a, b string) string {
	if a == "" || b == "" {
		return a + b
	}
	return a + "; " + b
}

// law appends a figure of the law as it stands in its row.
func (a *arithmetic) law(of program.Step, format string, x float64, terms program.Terms, status crop.Status) cells.Place {
	l := line{of: of, commodity: terms.Commodity, from: terms.Rows[of.Name].Citation(), status: status}
	return a.step(l, cells.Cell{Value: x, Look: cells.Look{Format: format, Law: true}})
}

// share appends a share of the law.
func (a *arithmetic) share(of program.Step, x float64, terms program.Terms) cells.Place {
	return a.law(of, cells.ShareFormat, x, terms, terms.Rows[of.Name].Status)
}

// rounded is a formula rounded as the law does.
func (a *arithmetic) rounded(decimals int, text string, of ...cells.Reference) cells.Cell {
	return a.Calc(cells.DecimalsFormat(decimals), cells.Rounded(decimals, text), of...)
}

func (a *arithmetic) layNational(key priceKey, w explain.Working) {
	terms := w.Terms
	fine := max(terms.PriceDecimals, terms.RateDecimals)
	a.Gap()
	a.Line(cells.Look{Bold: true}, fmt.Sprintf("%s, crop year %d: national prices", cells.Capital(w.Commodity.Name()), key.cropYear))
	reference := a.law(program.StepReferencePrice, cells.DecimalsFormat(terms.ReferenceDecimals()), terms.ReferencePrice, terms, terms.Status("reference_price", "reference_price_step"))
	past := a.pastPrices(w)
	effective := a.effective(w, reference, past)
	if w.Target == nil {
		effective = cells.Place{}
	}
	benchmark := a.benchmarkPrice(w, past, effective)
	price := a.step(line{of: program.StepPrice, commodity: w.Commodity, from: inputsTitle}, a.Same(cells.DecimalsFormat(terms.PriceDecimals), a.inputs.prices[key]))
	loan := a.law(program.StepLoanRate, cells.DecimalsFormat(fine), terms.LoanRate, terms, terms.Status("loan_rate"))
	both := line{of: program.StepEffectivePrice, commodity: w.Commodity, from: program.StepActualPrice.Citation}
	higher := a.step(both, a.Calc(cells.DecimalsFormat(fine), "MAX(?,?)", price, loan))
	n := nationalPlaces{effective: effective, benchmark: benchmark, loanRate: loan, price: higher}
	n.plcRate = a.step(lineOf(w, program.StepPLCRate), a.rounded(terms.RateDecimals, "MAX(0,?-?)", effective, higher))
	n.plcMost = a.step(lineOf(w, program.StepPLCMaximum), a.rounded(terms.RateDecimals, "MAX(0,?-?)", effective, loan))
	n.guaranteeShare = a.share(program.StepGuaranteeShare, terms.GuaranteeShare, terms)
	n.maximumShare = a.share(program.StepMaximumShare, terms.MaximumShare, terms)
	n.paymentAcreShare = a.share(program.StepPaymentAcreShare, terms.PaymentAcreShare, terms)
	a.national[key] = n
	a.Name(effective, "effective_reference_price", w.Commodity, key.cropYear)
	a.Name(benchmark, "benchmark_price", w.Commodity, key.cropYear)
	a.Name(n.plcRate, "plc_rate", w.Commodity, key.cropYear)
	a.Name(reference, "reference_price", w.Commodity, key.cropYear)
	a.Name(loan, "loan_rate", w.Commodity, key.cropYear)
}

// pastPrices appends the five past prices.
func (a *arithmetic) pastPrices(w explain.Working) cells.Span {
	var five cells.Span
	for i, p := range w.History {
		of := a.inputs.past[priceKey{w.Commodity, p.CropYear}]
		l := line{program.StepPastPrice, w.Commodity, fmt.Sprint(" ", p.CropYear), p.Source, p.Status}
		at := a.step(l, a.Same(cells.DecimalsFormat(w.Terms.PriceDecimals), of))
		five = five.With(i == 0, at)
	}
	return five
}

// effective appends the steps to what PLC pays up to.
func (a *arithmetic) effective(w explain.Working, reference cells.Place, past cells.Span) cells.Place {
	terms := w.Terms
	if !terms.HasEffective {
		l := lineOf(w, program.StepTargetIsReference)
		l.from = terms.Rows[program.StepReferencePrice.Name].Citation()
		return a.step(l, a.Same(cells.DecimalsFormat(terms.ReferenceDecimals()), reference))
	}
	share := a.share(program.StepAverageShare, terms.AverageShare, terms)
	limit := a.share(program.StepEffectiveLimit, terms.EffectiveLimit, terms)
	average := a.step(lineOf(w, program.StepPriceAverage), a.olympic(cells.ShareFormat, past))
	most := a.step(lineOf(w, program.StepMostEffective), a.rounded(terms.PriceDecimals, "?*?", limit, reference))
	part := a.step(lineOf(w, program.StepAveragePart), a.rounded(terms.PriceDecimals, "?*?", share, average))
	last := lineOf(w, program.StepEffectiveReferencePrice)
	if w.Target != nil {
		last.status = w.Target.Status
	}
	return a.step(last, a.rounded(terms.PriceDecimals, "MIN(?,MAX(?,?))", most, reference, part))
}

// olympic is the average without one highest and one lowest, not rounded.
func (a *arithmetic) olympic(format string, five cells.Span) cells.Cell {
	return a.Calc(format, olympicText, five, five, five)
}

// benchmarkPrice appends the steps to the benchmark price of ARC-CO.
func (a *arithmetic) benchmarkPrice(w explain.Working, past cells.Span, effective cells.Place) cells.Place {
	var raised cells.Span
	format := cells.DecimalsFormat(max(w.Terms.PriceDecimals, w.Terms.RateDecimals))
	for i, p := range w.History {
		own := cells.Place{}
		if past.From.Known() {
			own = cells.At(past.From.On, past.From.Column, past.From.Row+i)
		}
		raise := line{of: program.StepRaisedPrice, commodity: w.Commodity, more: fmt.Sprint(" ", p.CropYear)}
		at := a.step(raise, a.Calc(format, "MAX(?,?)", own, effective))
		raised = raised.With(i == 0, at)
	}
	l := lineOf(w, program.StepBenchmarkPrice)
	if w.Benchmark != nil {
		l.status = w.Benchmark.Status
	}
	average := a.rounded(w.Terms.BenchmarkDecimals, olympicText, raised, raised, raised)
	return a.step(l, average)
}

// layCounty appends the steps of a county and practice.
func (a *arithmetic) layCounty(key yieldKey, w explain.Working, b explain.WorkingBase, p explain.WorkingPractice) {
	national := a.national[priceKey{w.Commodity, key.cropYear}]
	decimals := w.Terms.YieldDecimals
	a.Gap()
	a.Line(cells.Look{Bold: true}, fmt.Sprintf("%s, crop year %d: %s", cells.Capital(w.Commodity.Name()), key.cropYear, cells.PlaceName("county "+b.County, b.CountyName, practiceWord(p.Practice))))
	benchmarkCell := a.Same(cells.DecimalsFormat(decimals), a.inputs.benchmarks[key])
	if p.Adjusted != nil {
		five := a.inputs.five[key]
		benchmarkCell = a.rounded(decimals, olympicText, five, five, five)
	}
	own := line{of: program.StepBenchmarkYield, commodity: w.Commodity, status: p.BenchmarkYield.Status}
	yield := a.step(own, benchmarkCell)
	benchmark := a.step(lineOf(w, program.StepBenchmarkRevenue), a.rounded(2, "?*?", yield, national.benchmark))
	c := countyPlaces{}
	c.guarantee = a.step(lineOf(w, program.StepGuarantee), a.rounded(2, "?*?", national.guaranteeShare, benchmark))
	c.maximum = a.step(lineOf(w, program.StepMaximum), a.rounded(2, "?*?", national.maximumShare, benchmark))
	entered := line{of: program.StepActualYield, commodity: w.Commodity, from: inputsTitle + "; " + p.CountyYield.Source, status: p.CountyYield.Status}
	c.yield = a.step(entered, a.rounded(decimals, "?", a.inputs.yields[key]))
	c.revenue = a.step(lineOf(w, program.StepActualRevenue), a.rounded(2, "?*?", c.yield, national.price))
	c.rate = a.step(lineOf(w, program.StepARCCORate), rate(a.Sheet, c.guarantee, c.maximum, c.revenue))
	a.county[key] = c
	named := []any{key.county, key.commodity, key.practice, key.cropYear}
	a.Name(yield, append([]any{"benchmark_yield"}, named...)...)
	a.Name(c.guarantee, append([]any{"guarantee"}, named...)...)
	a.Name(c.maximum, append([]any{"maximum"}, named...)...)
	a.Name(c.revenue, append([]any{"actual_revenue"}, named...)...)
	a.Name(a.Last(figureColumn), append([]any{"arc_co_rate"}, named...)...)
}

// olympicText is the formula of an average of five without one highest and one
// lowest.
const olympicText = "(SUM(?)-MIN(?)-MAX(?))/3"

// rateText is the formula of the ARC-CO payment rate from the most paid, the
// guarantee and the formula of the actual revenue.
func rateText(revenue string) string {
	return "MIN(?,MAX(0," + cells.Rounded(2, "(?-"+revenue+")") + "))"
}

// rate is the ARC-CO payment rate in USD per acre.
func rate(s *cells.Sheet, guarantee, maximum, revenue cells.Place) cells.Cell {
	return s.Calc(cells.MoneyFormat, rateText("?"), maximum, guarantee, revenue)
}

// practiceWord says the practice where the county has two.
func practiceWord(p farm.Practice) string {
	if p == farm.AllPractices {
		return ""
	}
	return string(p)
}
