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

// Commodity answers for one holding.
func (r *Run) commodity(h *position.CommodityBase) (answer.CommodityPart, payoff.Payoffs) {
	n := h.National
	part := answer.CommodityPart{
		Commodity: h.Commodity, BaseAcres: answer.Dollars(h.Acres),
		EffectiveReferencePrice: answer.PriceOf(n, n.Target, n.TargetDecimals()),
		ReferencePriceStatus:    n.Target.Status,
		BenchmarkPrice:          answer.PriceOf(n, n.BenchmarkPrice, n.Terms.BenchmarkDecimals),
		BenchmarkPriceStatus:    n.BenchmarkPrice.Status,
		Programs:                answer.Programs{{Program: farm.PLC, Figures: nil}, {Program: farm.ARCCO, Figures: nil}},
		Bases:                   basesOf(h), LeadByPrice: []answer.Lead{}, LeadByYield: []answer.YieldLead{}, Elsewhere: []answer.PaymentAt{}, ByPrice: []answer.PaymentBy{}, Leader: answer.None, Leans: answer.None,
	}
	if program, has := h.Farm.Record[h.Commodity]; has {
		part.OnRecord = &program
	}
	if day, known := FirstPaymentDay(h.Commodity, r.CropYear); known {
		part.PaymentNotBefore, part.TaxYear = day.Format(time.DateOnly), day.Year()
	}
	if h.PLCMissing == "" {
		part.PaymentYield = answer.DollarsOf(h.PaymentYield())
	}
	if _, barred := flag.STAXBars(h.Farm, h.Commodity, r.CropYear); barred {
		part.NotEnrolled = answer.DollarsOf(0)
	}
	price, ok := r.Price(h.Commodity, r.CropYear, n.Terms.PriceDecimals)
	if !ok {
		h.PLCMissing, h.ARCMissing = priceMissing, priceMissing
		part.LeaderReason = "no price projection: enter one"
		return part, nil
	}
	part.MYA = &answer.PriceView{
		Mean: answer.Price{Value: price.Mean(), Decimals: price.Decimals}, SD: answer.Price{Value: price.SD(), Decimals: price.Decimals},
		Status: price.Figure.Status, Source: price.Figure.Source, Spread: price.SDFrom,
	}
	part.ReferencePriceDrawn = priceRange(r.Targets(n), n.TargetDecimals())
	part.BenchmarkPriceDrawn = priceRange(r.BenchmarkPrices(n), n.Terms.BenchmarkDecimals)
	o := payoff.Of(r.Year, r.Operation, h, price)
	part.Programs = r.Programs(o)
	r.Decide(&part, h, price, o)
	r.assumeShare(&part, h, price)
	if !r.Brief {
		r.priceTenths(part.MYA, h.Commodity, price)
		r.tables(&part, h, price)
	}
	o.Release(r.Buffers)
	return part, o
}

// priceTenths fills in the prices that one outcome in ten is below, and above: of the
// distribution, or of the outcomes themselves where those are given or drawn again.
func (r *Run) priceTenths(view *answer.PriceView, c crop.Commodity, price position.Price) {
	const low, high = 10, 90
	l, h := price.TenthAndNinetieth()
	switch {
	case !r.Resolves(low):
		return
	case r.Distinct > 0 || price.Samples != nil:
		p := odds.PercentilesOf(r.Prices(c, price))
		l, h = p[slices.Index(odds.Percents[:], low)], p[slices.Index(odds.Percents[:], high)]
	}
	view.Low, view.High = &answer.Price{Value: l, Decimals: price.Decimals}, &answer.Price{Value: h, Decimals: price.Decimals}
}

// priceRange describes a price that differs from draw to draw, nil for none.
func priceRange(prices []crop.Price, decimals int) *answer.PriceRange {
	if prices == nil {
		return nil
	}
	mean, sd := stat.PopMeanStdDev(prices, nil)
	return &answer.PriceRange{Mean: answer.Price{Value: mean, Decimals: decimals}, SD: answer.Price{Value: sd, Decimals: decimals}}
}

// Programs describes what each program pays, PLC and ARC-CO also where a figure is
// missing.
func (r *Run) Programs(all payoff.Payoffs) (out answer.Programs) {
	for _, one := range payoff.Instruments(r.CropYear) {
		var view *answer.ProgramPart
		if p := all.Of(one.ID()); p != nil {
			view = answer.ProgramFigures(p.Summary(r.Year))
		}
		if view != nil || one.ID() == farm.PLC || one.ID() == farm.ARCCO {
			out = append(out, answer.OneProgram[answer.ProgramPart]{Program: one.ID(), Figures: view})
		}
	}
	return out
}

// basesOf describes each base, and each practice of it where the county has two.
func basesOf(h *position.CommodityBase) []answer.BasePart {
	var all []answer.BasePart
	for _, p := range h.Bases {
		practices := p.Practices
		if len(practices) == 0 { // nothing is known of the county
			practices = []position.Practice{{Unit: position.CountyUnit{Practice: farm.AllPractices}, Weight: 1}}
		}
		for _, u := range practices {
			all = append(all, basePart(h, p, u))
		}
	}
	return all
}

func basePart(h *position.CommodityBase, p position.Base, u position.Practice) answer.BasePart {
	b := answer.BasePart{
		County: p.County, CountyName: p.CountyName, Tract: p.Record.Tract, Practice: string(u.Unit.Practice),
		BaseAcres: answer.Dollars(u.Weight * p.Record.BaseAcres), BenchmarkFrom: u.Benchmark.Source,
		PaymentAcres: answer.Dollars(u.Weight * p.PaymentAcres), CRPReduction: answer.Dollars(u.Weight * p.Record.CRPReduction),
	}
	if u.Benchmark.Status != "" {
		b.BenchmarkYield, b.BenchmarkStatus = answer.DollarsOf(u.Benchmark.Value), u.Benchmark.Status
		if h.National.BenchmarkPrice.Status != "" {
			b.BenchmarkRevenue, b.Guarantee = answer.DollarsOf(u.Coverage.BenchmarkRevenue), answer.DollarsOf(u.Coverage.Guarantee)
			b.GuaranteeStatus = crop.ComputedFrom(u.Benchmark.Status, h.National.BenchmarkPrice.Status)
		}
	}
	if u.Known {
		b.CountyYield = answer.YieldFigures(u.Outlook)
	}
	return b
}

// tables fills in who leads and what is paid at given prices and yields.
func (r *Run) tables(part *answer.CommodityPart, h *position.CommodityBase, price position.Price) {
	if part.Difference == nil {
		return
	}
	part.LeadByPrice = leadByPrice(h)
	mean := program.Round(price.Mean(), h.National.Terms.PriceDecimals)
	part.LeadByYield, part.StartPoints, part.Elsewhere = leadByYield(h, mean), startPointsOf(h, mean), paymentsElsewhere(h, mean)
	part.ByPrice = paymentsByPrice(h, mean)
}
