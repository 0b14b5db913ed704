package answer

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// arccoRate is the ARC-CO rate of a base, USD/acre: each scenario against its own
// guarantee where that differs.
type arccoRate struct {
	of    *holding
	base  part
	price priceOutlook

	coverage  func(guarantee, maximum []crop.Revenue, from int)
	guarantee []crop.Revenue
	maximum   []crop.Revenue
	from      int // of the scenarios that they are filled for; -1: none
}

func (r *arccoRate) key() key {
	return key{program: farm.ARCCO, commodity: r.of.commodity, county: r.base.county, irrigatedShare: r.base.irrigatedShare}
}

func (r *arccoRate) fill(rates, most []float64, t *tile) {
	if r.coverage == nil {
		r.coverage, r.from = coverageOf(t.year, r.of.national, r.base), -1
		r.guarantee, r.maximum = make([]crop.Revenue, t.length), make([]crop.Revenue, t.length)
	}
	if r.from != t.from {
		r.coverage(r.guarantee, r.maximum, t.from)
		r.from = t.from
	}
	r.revenues(rates, t)
	for i, revenue := range rates {
		rates[i] = program.ARCCO{Guarantee: r.guarantee[i], Maximum: r.maximum[i]}.Rate(revenue)
	}
	copy(most, r.maximum)
}

// revenues sets dst to the actual revenue of the base in each scenario.
func (r *arccoRate) revenues(dst []crop.Revenue, t *tile) {
	terms := r.of.national.Terms
	prices := t.Prices(r.of.commodity, r.price)
	if len(r.base.practices) == 1 {
		for i, yield := range t.Yields(r.base.practices[0], terms.YieldDecimals) {
			dst[i] = program.ActualRevenue(yield, program.ActualPrice(prices[i], terms.LoanRate))
		}
		return
	}
	irrigated := t.Yields(*r.base.practice(farm.Irrigated), terms.YieldDecimals)
	nonirrigated := t.Yields(*r.base.practice(farm.Nonirrigated), terms.YieldDecimals)
	for i, mya := range prices {
		price := program.ActualPrice(mya, terms.LoanRate)
		dst[i] = program.WeightedRevenue(r.base.irrigatedShare, program.ActualRevenue(irrigated[i], price), program.ActualRevenue(nonirrigated[i], price))
	}
}

// coverageOf returns what fills in guarantee and maximum of scenarios from, from+1 ...
func coverageOf(d *drawnYear, n National, p part) func(guarantee, maximum []crop.Revenue, from int) {
	at := coverageAt(d, n, p)
	if at == nil {
		at = func(int) program.ARCCO { return p.coverage }
	}
	return func(guarantee, maximum []crop.Revenue, from int) {
		for i := range guarantee {
			c := at(from + i)
			guarantee[i], maximum[i] = c.Guarantee, c.Maximum
		}
	}
}

// coverageAt returns the coverage of a base by scenario, nil where it is the same in
// all.
func coverageAt(d *drawnYear, n National, p part) func(draw int) program.ARCCO {
	prices := d.benchmarkPrices(n)
	yields := make([][]crop.Yield, len(p.practices))
	differs := prices != nil
	for j, u := range p.practices {
		yields[j] = d.benchmarkYields(u, n.Terms.YieldDecimals)
		differs = differs || yields[j] != nil
	}
	if !differs {
		return nil
	}
	at := func(j, draw int) program.ARCCO {
		yield, price := p.practices[j].benchmark.Value, n.BenchmarkPrice.Value
		if yields[j] != nil {
			yield = yields[j][draw]
		}
		if prices != nil {
			price = prices[draw]
		}
		return n.Terms.ARCCO(yield, price)
	}
	if len(p.practices) == 1 {
		return func(draw int) program.ARCCO { return at(0, draw) }
	}
	irrigated, nonirrigated := 0, 1
	if p.practices[0].unit.practice == farm.Nonirrigated {
		irrigated, nonirrigated = 1, 0
	}
	return func(draw int) program.ARCCO {
		return program.Weighted(p.irrigatedShare, at(irrigated, draw), at(nonirrigated, draw))
	}
}

// arcco is Agriculture Risk Coverage by county.
type arcco struct{}

// ID is the key of Agriculture Risk Coverage by county.
func (arcco) ID() farm.Program { return farm.ARCCO }

// Payoff is what ARC-CO pays on the bases of a commodity, each by the rate of its
// county; nil where a figure is missing.
func (arcco) Payoff(y *yearRates, _ farm.Operation, h *holding, price priceOutlook, _ payoffs) *payoff {
	if h.arcMissing != "" {
		return nil
	}
	out := &payoff{program: farm.ARCCO, perAcre: y.zeros(), maximum: maximumARCCO(h)}
	for _, p := range h.parts {
		rate := y.of(&arccoRate{of: h, base: p, price: price})
		out.rates = append(out.rates, rate)
		out.sum = append(out.sum, weighted{rate.rates, p.paymentAcres / h.baseAcres})
		out.byBase = append(out.byBase, acrePayment(rate.rates, p.paymentAcres, rate.maximum, program.ARCCOPayment))
	}
	out.sum.fill(out.perAcre)
	out.mean = odds.Mean(out.perAcre)
	out.most = func() []crop.Money { return mostARCCO(y.drawnYear, h) }
	return out
}

// acrePayment is what a rate per acre brings on some acres, by a rule of the law.
func acrePayment(rates []crop.Revenue, acres crop.Acres, most crop.Revenue, rule func(crop.Revenue, crop.Acres) crop.Money) *payment {
	return &payment{rates: rates, most: rule(most, acres), pay: func(dst []crop.Money, share crop.Share, rates []float64) {
		for i, rate := range rates {
			dst[i] += share * rule(rate, acres)
		}
	}}
}

// maximumARCCO returns the most ARC-CO can pay per base acre, unrounded.
func maximumARCCO(h *holding) crop.Money {
	most := 0.0
	for _, p := range h.parts {
		most += p.coverage.Maximum * p.paymentAcres / h.baseAcres
	}
	return most
}

// mostARCCO returns the most that ARC-CO can pay per base acre in each scenario; give
// the series back.
func mostARCCO(d *drawnYear, h *holding) []crop.Money {
	most, n := d.zeros(), d.draws.Tile()
	guarantee, maximum := make([]crop.Revenue, n), make([]crop.Revenue, n)
	for _, p := range h.parts {
		coverage := coverageOf(d, h.national, p)
		for from := 0; from < len(most); from += n {
			coverage(guarantee, maximum, from)
			addScaled(most[from:from+n], p.paymentAcres/h.baseAcres, maximum)
		}
	}
	return most
}
