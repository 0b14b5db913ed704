package payoff

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// ARCCORate is the ARC-CO rate of a base, USD/acre: each scenario against its own
// guarantee where that differs.
type ARCCORate struct {
	Of    *position.CommodityBase
	Base  position.Base
	Price position.Price

	year      *scenario.Year // that coverage is of
	coverage  func(guarantee, maximum []crop.Revenue, from int)
	guarantee []crop.Revenue
	maximum   []crop.Revenue
	from      int // of the scenarios that they are filled for; -1: none
}

// Key names the county, commodity and irrigated share.
func (r *ARCCORate) Key() Key { return arccoKey(r.Of, &r.Base) }

func arccoKey(h *position.CommodityBase, b *position.Base) Key {
	return Key{Program: farm.ARCCO, Commodity: h.Commodity, County: b.County, IrrigatedShare: b.IrrigatedShare}
}

// Fill sets USD per acre by scenario of a tile.
func (r *ARCCORate) Fill(rates, most []float64, t *Tile) {
	if r.year != t.year {
		r.coverage, r.from, r.year = coverageOf(t.year, r.Of.National, r.Base), -1, t.year
		r.guarantee, r.maximum = make([]crop.Revenue, t.Length), make([]crop.Revenue, t.Length)
	}
	if r.from != t.From {
		r.coverage(r.guarantee, r.maximum, t.From)
		r.from = t.From
	}
	r.revenues(rates, t)
	for i, revenue := range rates {
		rates[i] = program.ARCCO{Guarantee: r.guarantee[i], Maximum: r.maximum[i]}.Rate(revenue)
	}
	copy(most, r.maximum)
}

// revenues sets dst to the actual revenue of the base in each scenario.
func (r *ARCCORate) revenues(dst []crop.Revenue, t *Tile) {
	terms := r.Of.National.Terms
	prices := t.Prices(r.Of.Commodity, r.Price)
	if len(r.Base.Practices) == 1 {
		for i, yield := range t.Yields(r.Base.Practices[0], terms.YieldDecimals) {
			dst[i] = program.ActualRevenue(yield, program.ActualPrice(prices[i], terms.LoanRate))
		}
		return
	}
	irrigated := t.Yields(*r.Base.Practice(farm.Irrigated), terms.YieldDecimals)
	nonirrigated := t.Yields(*r.Base.Practice(farm.Nonirrigated), terms.YieldDecimals)
	for i, mya := range prices {
		price := program.ActualPrice(mya, terms.LoanRate)
		dst[i] = program.WeightedRevenue(r.Base.IrrigatedShare, program.ActualRevenue(irrigated[i], price), program.ActualRevenue(nonirrigated[i], price))
	}
}

// coverageOf returns what fills in guarantee and maximum of scenarios from, from+1 ...
func coverageOf(d *scenario.Year, n position.National, p position.Base) func(guarantee, maximum []crop.Revenue, from int) {
	at := coverageAt(d, n, p)
	if at == nil {
		at = func(int) program.ARCCO { return p.Coverage }
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
func coverageAt(d *scenario.Year, n position.National, p position.Base) func(i int) program.ARCCO {
	prices := d.BenchmarkPrices(n)
	yields := make([][]crop.Yield, len(p.Practices))
	differs := prices != nil
	for j, u := range p.Practices {
		yields[j] = d.BenchmarkYields(u, n.Terms.YieldDecimals)
		differs = differs || yields[j] != nil
	}
	if !differs {
		return nil
	}
	at := func(j, i int) program.ARCCO {
		yield, price := p.Practices[j].Benchmark.Value, n.BenchmarkPrice.Value
		if yields[j] != nil {
			yield = yields[j][i]
		}
		if prices != nil {
			price = prices[i]
		}
		return n.Terms.ARCCO(yield, price)
	}
	if len(p.Practices) == 1 {
		return func(i int) program.ARCCO { return at(0, i) }
	}
	irrigated, nonirrigated := 0, 1
	if p.Practices[0].Unit.Practice == farm.Nonirrigated {
		irrigated, nonirrigated = 1, 0
	}
	return func(i int) program.ARCCO {
		return program.Weighted(p.IrrigatedShare, at(irrigated, i), at(nonirrigated, i))
	}
}

// arcco is Agriculture Risk Coverage by county.
type arcco struct{}

// ID is the key of Agriculture Risk Coverage by county.
func (arcco) ID() farm.Program { return farm.ARCCO }

// Payoff is what ARC-CO pays on the bases of a commodity, each by the rate of its
// county; nil where a figure is missing.
func (arcco) Payoff(y *Year, _ farm.Operation, h *position.CommodityBase, price position.Price, _ Payoffs) *Payoff {
	if h.ARCMissing != "" {
		return nil
	}
	out := &Payoff{Program: farm.ARCCO, maximum: MaximumARCCO(h)}
	var byBase []*Claim
	for k := range h.Bases {
		p := &h.Bases[k]
		rate, known := y.made.Known(arccoKey(h, p))
		if !known {
			rate = y.RatesOf(&ARCCORate{Of: h, Base: *p, Price: price})
		}
		out.addRate(rate, p.PaymentAcres/h.Acres, k)
		byBase = append(byBase, countyClaim(rate.Scenarios, p.PaymentAcres, rate.maximum))
	}
	out.setParts(y, h, byBase)
	out.most = func() []crop.Money { return mostARCCO(y.Year, h, out.sum) }
	return out
}

// countyClaim is what a rate of ARC-CO brings on some acres. Most outcomes of most bases pay
// nothing, and this loop runs more often than any other.
func countyClaim(rates []crop.Revenue, acres crop.Acres, most crop.Revenue) *Claim {
	return &Claim{Rates: rates, PerRate: acres, Most: program.ARCCOPayment(most, acres), Pay: func(dst []crop.Money, share crop.Share, rates []float64) {
		for i, rate := range rates {
			if rate != 0 {
				dst[i] += share * program.ARCCOPayment(rate, acres)
			}
		}
	}}
}

// MaximumARCCO returns the most ARC-CO can pay per base acre, unrounded.
func MaximumARCCO(h *position.CommodityBase) (most crop.Money) {
	for _, p := range h.Bases {
		most += p.Coverage.Maximum * p.PaymentAcres / h.Acres
	}
	return most
}

// mostARCCO returns the most that ARC-CO can pay per base acre in each scenario, of a sum
// by rate; give the series back.
func mostARCCO(d *scenario.Year, h *position.CommodityBase, of WeightedSum) []crop.Money {
	most, n := d.Zeros(), d.Size.Tile()
	guarantee, maximum := make([]crop.Revenue, n), make([]crop.Revenue, n)
	for _, w := range of {
		coverage := coverageOf(d, h.National, h.Bases[w.base])
		for from := 0; from < len(most); from += n {
			coverage(guarantee, maximum, from)
			scenario.AddScaled(most[from:from+n], w.weight, maximum)
		}
	}
	return most
}
