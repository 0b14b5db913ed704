package compare

import (
	"slices"
	"time"

	"gonum.org/v1/gonum/stat"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
	"fencerow/sim/odds"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
)

// commodity answers for one commodity base of a farm. Payoffs are nil where there is no
// price; release what they own when the crop year is done.
func (r *YearRun) commodity(base *position.CommodityBase) (answer.CommodityPart, payoff.Payoffs) {
	n := base.National
	part := answer.CommodityPart{
		Commodity: base.Commodity, BaseAcres: answer.Dollars(base.Acres),
		EffectiveReferencePrice: answer.PriceOf(n, n.Target, n.TargetDecimals()),
		ReferencePriceStatus:    n.Target.Status,
		BenchmarkPrice:          answer.PriceOf(n, n.BenchmarkPrice, n.Terms.BenchmarkDecimals),
		BenchmarkPriceStatus:    n.BenchmarkPrice.Status,
		Programs:                answer.Programs{{Program: farm.PLC, Figures: nil}, {Program: farm.ARCCO, Figures: nil}},
		Bases:                   r.basesOf(base), LeadByPrice: []answer.Lead{}, LeadByYield: []answer.YieldLead{}, Elsewhere: []answer.PaymentAt{}, ByPrice: []answer.PaymentBy{}, Leader: answer.None, Leans: answer.None,
	}
	if program, has := base.Farm.Record[base.Commodity]; has {
		part.OnRecord = &program
	}
	if day, known := FirstPaymentDay(base.Commodity, r.Year.CropYear); known {
		part.PaymentNotBefore, part.TaxYear = day.Format(time.DateOnly), day.Year()
	}
	if base.PLCMissing == "" {
		part.PaymentYield = answer.DollarsOf(base.PaymentYield())
	}
	if _, barred := flag.STAXBars(base.Farm, base.Commodity, r.Year.CropYear); barred {
		part.NotEnrolled = answer.DollarsOf(0)
	}
	price, ok := r.Year.Price(base.Commodity, r.Year.CropYear, n.Terms.PriceDecimals)
	if !ok {
		base.PLCMissing, base.ARCMissing = priceMissing, priceMissing
		part.LeaderReason = "no projected price: enter one"
		return part, nil
	}
	part.MYA = &answer.PriceView{
		Mean: answer.Price{Value: price.Mean(), Decimals: price.Decimals}, SD: answer.Price{Value: price.SD(), Decimals: price.Decimals},
		Status: price.Figure.Status, Source: price.Figure.Source, SDFrom: price.SDFrom,
	}
	targets, benchmarks, release := r.Year.DrawnPrices(base, price)
	part.ReferencePriceDrawn, part.BenchmarkPriceDrawn = priceRange(targets, n.TargetDecimals()), priceRange(benchmarks, n.Terms.BenchmarkDecimals)
	release()
	o := payoff.Of(r.Year, r.question.Operation, base, price)
	part.Programs = r.Programs(o)
	r.Decide(&part, base, price, o)
	r.assumeShare(&part, base, price)
	if !r.question.Brief {
		r.priceTenths(part.MYA, base.Commodity, price)
		r.tables(&part, base, price)
	}
	o.Release(r.Year.Buffers)
	return part, o
}

// priceTenths fills in the prices that one outcome in ten is below and above: exact ones
// of the distribution, but percentiles of the scenarios where the outlook is a list of
// samples or past years. It leaves them nil where so few scenarios cannot resolve a
// tenth.
func (r *YearRun) priceTenths(view *answer.PriceView, c crop.Commodity, price position.Price) {
	l, h := price.TenthAndNinetieth()
	switch {
	case !r.Year.Resolves(lowTenth):
		return
	case r.Year.Distinct > 0 || price.Samples != nil:
		l, h = tenthsOf(r.Year.Prices(c, price))
	}
	view.Low, view.High = &answer.Price{Value: l, Decimals: price.Decimals}, &answer.Price{Value: h, Decimals: price.Decimals}
}

// lowTenth and highTenth are the percentiles between which eight outcomes in ten lie.
const lowTenth, highTenth = 10, 90

// tenthsOf returns them over all scenarios.
func tenthsOf(values []float64) (low, high float64) {
	p := odds.PercentilesOf(values)
	return p[slices.Index(odds.Percents[:], lowTenth)], p[slices.Index(odds.Percents[:], highTenth)]
}

// priceRange describes a price that differs by scenario, nil for no prices. The standard
// deviation divides by n.
func priceRange(prices []crop.Price, decimals int) *answer.PriceRange {
	if prices == nil {
		return nil
	}
	mean, sd := stat.PopMeanStdDev(prices, nil)
	return &answer.PriceRange{Mean: answer.Price{Value: mean, Decimals: decimals}, SD: answer.Price{Value: sd, Decimals: decimals}}
}

// Programs describes what each program of the crop year pays per base acre. PLC and
// ARC-CO are always listed, with nil where a figure is missing.
func (r *YearRun) Programs(all payoff.Payoffs) (out answer.Programs) {
	for _, one := range payoff.Instruments(r.Year.CropYear) {
		var view *answer.ProgramPart
		if p := all.Of(one.ID()); p != nil {
			view = answer.ProgramFigures(p.Summary(r.Year))
			if !r.question.Brief {
				view.OfFifty = r.cases(p.PerAcre(r.Year.Buffers))
			}
		}
		if view != nil || one.ID() == farm.PLC || one.ID() == farm.ARCCO {
			out = append(out, answer.OneProgram[answer.ProgramPart]{Program: one.ID(), Figures: view})
		}
	}
	return out
}

// basesOf describes each base, or each practice of it where the county has yields by
// practice.
func (r *YearRun) basesOf(base *position.CommodityBase) []answer.BasePart {
	var all []answer.BasePart
	for _, b := range base.Bases {
		practices := b.Practices
		if len(practices) == 0 { // nothing is known of the county
			practices = []position.Practice{{Unit: position.CountyUnit{Practice: farm.AllPractices}, Weight: 1}}
		}
		for _, u := range practices {
			all = append(all, r.basePart(base, b, u))
		}
	}
	return all
}

func (r *YearRun) basePart(base *position.CommodityBase, b position.Base, u position.Practice) answer.BasePart {
	view := answer.BasePart{
		County: b.County, CountyName: b.CountyName, Tract: b.Record.Tract, Practice: string(u.Unit.Practice),
		BaseAcres: answer.Dollars(u.Weight * b.Record.BaseAcres), BenchmarkFrom: u.Benchmark.Source,
		PaymentAcres: answer.Dollars(u.Weight * b.PaymentAcres), CRPReduction: answer.Dollars(u.Weight * b.Record.CRPReduction),
	}
	if u.Benchmark.Status != "" {
		view.BenchmarkYield, view.BenchmarkStatus = answer.DollarsOf(u.Benchmark.Value), u.Benchmark.Status
		if base.National.BenchmarkPrice.Status != "" {
			view.BenchmarkRevenue, view.Guarantee = answer.DollarsOf(u.Coverage.BenchmarkRevenue), answer.DollarsOf(u.Coverage.Guarantee)
			view.GuaranteeStatus = crop.ComputedFrom(u.Benchmark.Status, base.National.BenchmarkPrice.Status)
		}
	}
	if u.Known {
		view.CountyYield = answer.YieldFigures(u.Outlook)
		r.yieldTenths(view.CountyYield, base.National.Terms.YieldDecimals, u)
	}
	return view
}

// tables fills in who leads and what is paid at other prices and county yields. They are
// left out where a program has no figures.
func (r *YearRun) tables(part *answer.CommodityPart, base *position.CommodityBase, price position.Price) {
	if part.Difference == nil {
		return
	}
	part.LeadByPrice = leadByPrice(base)
	mean := program.Round(price.Mean(), base.National.Terms.PriceDecimals)
	part.LeadByYield, part.StartPoints, part.Elsewhere = leadByYield(base, mean), startPointsOf(base, mean), paymentsElsewhere(base, mean)
	part.ByPrice = paymentsByPrice(base, mean)
}
