package answer

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// A payment rate depends on the commodity, and for ARC-CO on the county, its
// practices and the irrigated share; not on the farm. So each is worked out once
// in a year's draws, and farms multiply it by their acres.

// moved is the size of the move of a mean that a leader must survive.
const moved = 0.05

// move moves the mean price or the mean county yields; 1 leaves them.
type move struct{ price, yield float64 }

var moves = []move{{1 - moved, 1}, {1 + moved, 1}, {1, 1 - moved}, {1, 1 + moved}}

// coverageKey is a county with the commodity, and the irrigated share where it
// has two yields.
type coverageKey struct {
	county         string
	commodity      crop.Commodity
	irrigatedShare crop.Share
}

// movedKey is a rate under a move; for PLC without county.
type movedKey struct {
	coverageKey
	move
}

func (h *holding) coverageKey(p part) coverageKey {
	return coverageKey{p.county, h.commodity, p.irrigatedShare}
}

// plcRates returns the PLC rate of each draw, USD/unit.
func (d *drawnYear) plcRates(h *holding, price priceOutlook) []crop.Price {
	return d.plcRate.always(h.commodity, func() []crop.Price { return d.plcRatesAt(h, d.prices(h.commodity, price)) })
}

// plcRatesAt returns the rates at other prices, up to each draw's own target
// price where that differs.
func (d *drawnYear) plcRatesAt(h *holding, prices []crop.Price) []crop.Price {
	contract, targets := h.plc(), d.targets(h.national)
	rates := d.take()
	for i, price := range prices {
		if targets != nil {
			contract.TargetPrice = targets[i]
		}
		rates[i] = contract.Rate(price)
	}
	return rates
}

// arcRates returns the ARC-CO rate of each draw for a base, USD/acre.
func (d *drawnYear) arcRates(h *holding, p part, price priceOutlook) []crop.Revenue {
	return d.arcRate.always(h.coverageKey(p), func() []crop.Revenue {
		var yields [][]crop.Yield
		for _, u := range p.practices {
			yields = append(yields, d.yields(h.national.Terms.YieldDecimals, u))
		}
		return d.arcRatesAt(h, p, d.prices(h.commodity, price), yields)
	})
}

// arcRatesAt returns the rates at other prices and county yields (by practice),
// against each draw's own coverage where that differs.
func (d *drawnYear) arcRatesAt(h *holding, p part, prices []crop.Price, yields [][]crop.Yield) []crop.Revenue {
	rates := d.take()
	d.actualRevenues(rates, h, p, prices, yields)
	against := p.coverage
	if drawn := d.coverages(h, p); drawn != nil {
		for i, revenue := range rates {
			against.Guarantee, against.Maximum = drawn.guarantee[i], drawn.maximum[i]
			rates[i] = against.Rate(revenue)
		}
		return rates
	}
	for i, revenue := range rates {
		rates[i] = against.Rate(revenue)
	}
	return rates
}

// actualRevenues sets dst to the actual revenue of a base in each draw.
func (d *drawnYear) actualRevenues(dst []crop.Revenue, h *holding, p part, prices []crop.Price, yields [][]crop.Yield) {
	loan := h.national.Terms.LoanRate
	if len(yields) == 1 {
		for i, yield := range yields[0] {
			dst[i] = program.ActualRevenue(yield, program.ActualPrice(prices[i], loan))
		}
		return
	}
	of := make([]crop.Yield, len(yields))
	for i, price := range prices {
		for j := range yields {
			of[j] = yields[j][i]
		}
		dst[i] = h.actualRevenue(p, price, of)
	}
}

// movedPLCRate returns the average PLC rate under a move.
func (d *drawnYear) movedPLCRate(h *holding, price priceOutlook, m move) crop.Price {
	if m.price == 1 || price.known {
		return odds.Mean(d.plcRates(h, price))
	}
	return d.movedPLC.always(movedKey{coverageKey{commodity: h.commodity}, m}, func() crop.Price {
		prices := d.movedPrices(h.commodity, price, m.price)
		rates := d.plcRatesAt(h, prices)
		defer d.give(prices, rates)
		return odds.Mean(rates)
	})
}

// movedARCRate returns the average ARC-CO rate of a base under a move.
func (d *drawnYear) movedARCRate(h *holding, p part, price priceOutlook, m move) crop.Revenue {
	return d.movedARC.always(movedKey{h.coverageKey(p), m}, func() crop.Revenue {
		prices := d.prices(h.commodity, price)
		if m.price != 1 {
			prices = d.movedPrices(h.commodity, price, m.price)
			defer d.give(prices)
		}
		var yields [][]crop.Yield
		for _, u := range p.practices {
			if m.yield == 1 {
				yields = append(yields, d.yields(h.national.Terms.YieldDecimals, u))
				continue
			}
			yields = append(yields, d.movedYields(h.national.Terms.YieldDecimals, u, m.yield))
			defer d.give(yields[len(yields)-1])
		}
		rates := d.arcRatesAt(h, p, prices, yields)
		defer d.give(rates)
		return odds.Mean(rates)
	})
}

// coverages are the guarantee and the maximum of each draw, USD per acre.
type coverages struct{ guarantee, maximum []crop.Revenue }

// coverages returns those of a base, nil where they are the same in all draws.
func (d *drawnYear) coverages(h *holding, p part) *coverages {
	return d.coverage.always(h.coverageKey(p), func() *coverages {
		at := d.coverageAt(h.national, p)
		if at == nil {
			return nil
		}
		n := d.draws.N()
		c := &coverages{make([]crop.Revenue, n), make([]crop.Revenue, n)}
		for i := range n {
			one := at(i)
			c.guarantee[i], c.maximum[i] = one.Guarantee, one.Maximum
		}
		return c
	})
}

// coverageAt returns the coverage of a base by draw, nil where it is the same in
// all.
func (d *drawnYear) coverageAt(n National, p part) func(draw int) program.ARCCO {
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

// shape describes a series over all draws.
type shape struct {
	odds.Summary
	percentiles  odds.Percentiles
	paying, full float64 // shares of draws above zero, and at the most there can be
	maximum      float64 // the most there can be in any draw
}

// shapeOf describes payments or rates; maximum is the most there can be, most that
// of each draw where it differs, else nil.
func (b *buffers) shapeOf(values []float64, maximum float64, most []float64) shape {
	const same = 1e-9 // binary noise between two ways of adding the same cents
	s := shape{Summary: odds.Summarize(values, b.draws), percentiles: odds.PercentilesOf(values), maximum: maximum}
	paying, full, limit := 0, 0, maximum
	for i, x := range values {
		if x <= 0 {
			continue
		}
		paying++
		if most != nil {
			limit = most[i]
		}
		if x >= limit-same {
			full++
		}
	}
	if most != nil {
		s.maximum = slices.Max(most)
	}
	n := float64(len(values))
	s.paying, s.full = float64(paying)/n, float64(full)/n
	return s
}

// times is the shape of the same series with every value multiplied.
func (s shape) times(by float64) shape {
	s.Mean, s.StandardError, s.SD, s.maximum = by*s.Mean, by*s.StandardError, by*s.SD, by*s.maximum
	for i := range s.percentiles {
		s.percentiles[i] *= by
	}
	return s
}

// view is the shape for the JSON.
func (s shape) view() *ProgramPart {
	p := &ProgramPart{
		Mean: Dollars(s.Mean), StandardError: Dollars(s.StandardError), SD: Dollars(s.SD), Maximum: Dollars(s.maximum),
		ChanceOfPayment: Chance(s.paying), ChanceOfMaximum: Chance(s.full), Percentiles: Percentiles(s.percentiles),
	}
	if s.paying > 0 {
		p.MeanWhenPaying = dollars(s.Mean / s.paying)
	}
	return p
}

// plcShape describes the PLC rate of a commodity, USD/unit.
func (d *drawnYear) plcShape(h *holding, rates []crop.Price) shape {
	return d.plcShapes.always(h.commodity, func() shape {
		contract, targets := h.plc(), d.targets(h.national)
		if targets == nil {
			return d.shapeOf(rates, contract.MaximumRate(), nil)
		}
		most := d.take()
		defer d.give(most)
		for i, target := range targets {
			contract.TargetPrice = target
			most[i] = contract.MaximumRate()
		}
		return d.shapeOf(rates, 0, most)
	})
}

// arcShape describes the ARC-CO rate of a base, USD/acre.
func (d *drawnYear) arcShape(h *holding, p part, rates []crop.Revenue) shape {
	return d.arcShapes.always(h.coverageKey(p), func() shape {
		if drawn := d.coverages(h, p); drawn != nil {
			return d.shapeOf(rates, 0, drawn.maximum)
		}
		return d.shapeOf(rates, p.coverage.Maximum, nil)
	})
}
