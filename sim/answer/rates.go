package answer

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// A payment rate depends on the commodity, and for ARC-CO on the county, its
// practices and the irrigated share; not on the farm. So each is worked out once
// in a year's draws, a few draws at a time, and farms multiply it by their acres.

// moved is the size of the move of a mean that a leader must survive.
const moved = 0.05

// move moves the mean price or the mean county yields in proportion.
type move struct{ price, yield float64 }

// moves are the means as drawn, then each moved either way.
var moves = [...]move{{1, 1}, {1 - moved, 1}, {1 + moved, 1}, {1, 1 - moved}, {1, 1 + moved}}

// factors are those that moves multiply a price or a yield by.
var factors = [...]float64{1, 1 - moved, 1 + moved}

// factorOf returns the place of a move's factors.
func (m move) factorOf() (price, yield int) {
	for i, by := range factors {
		if m.price == by {
			price = i
		}
		if m.yield == by {
			yield = i
		}
	}
	return price, yield
}

// coverageKey is a county with the commodity, and the irrigated share where it
// has two yields.
type coverageKey struct {
	county         string
	commodity      crop.Commodity
	irrigatedShare crop.Share
}

// movedDraws is the number of draws of the first replicates that moves are worked
// out on: what an average changes by is far surer than the average itself.
const movedDraws = 1 << 14

// rateDraws are a payment rate in all draws.
type rateDraws struct {
	rates   []float64
	mean    [len(moves)]float64 // average under each move
	change  [len(moves)]float64 // by each move, summed over the draws it is worked out on
	changed int                 // these draws
	full    float64             // share of draws in which it is the most there can be
	maximum float64             // the most in any draw
}

// note counts one tile of rates; most is what each can be at most.
func (r *rateDraws) note(rates, most []float64) {
	for i, rate := range rates {
		if rate > 0 && rate >= most[i]-same {
			r.full++
		}
		r.maximum = max(r.maximum, most[i])
	}
}

// same is binary noise between two ways of adding the same cents.
const same = 1e-9

// done turns sums into averages.
func (r *rateDraws) done() {
	mean := odds.Mean(r.rates)
	for m := range r.mean {
		r.mean[m] = mean + r.change[m]/float64(r.changed)
	}
	r.full /= float64(len(r.rates))
}

// add takes in one tile of rates under a move; those as drawn come first.
func (r *rateDraws) add(m, from int, rates, most []float64) {
	if m == 0 {
		copy(r.rates[from:], rates)
		r.note(rates, most)
		if from < movedDraws {
			r.changed += len(rates)
		}
		return
	}
	r.change[m] += sumOf(rates) - sumOf(r.rates[from:from+len(rates)])
}

// movesAt are those worked out at some draws.
func movesAt(from int) []move {
	if from < movedDraws {
		return moves[:]
	}
	return moves[:1]
}

// plcRates returns the PLC rates of a commodity, USD/unit, each up to its own
// draw's target price where that differs.
func (d *drawnYear) plcRates(h *holding, price priceOutlook) *rateDraws {
	return d.plcRate.always(h.commodity, func() *rateDraws {
		out, n := &rateDraws{rates: d.take()}, d.draws.Tile()
		contract, targets := h.plc(), d.targets(h.national)
		rates, most := make([]float64, n), make([]float64, n)
		var prices tiles
		for from := 0; from < len(out.rates); from += n {
			prices.round(d.rawPrices(h.commodity, price)[from:from+n], price.Decimals, price.known, from)
			for m, move := range movesAt(from) {
				factor, _ := move.factorOf()
				if m > 0 && factor == 0 { // the yield moves
					continue
				}
				for i, mya := range prices[factor] {
					if targets != nil {
						contract.TargetPrice = targets[from+i]
					}
					rates[i], most[i] = contract.Rate(mya), contract.MaximumRate()
				}
				out.add(m, from, rates, most)
			}
		}
		out.done()
		return out
	})
}

// tiles are some draws of a price or yield, rounded as FSA prints it, under each
// of the factors.
type tiles [len(factors)][]float64

// round fills the tiles of the draws from from on, under the factors that are asked
// for there; what is known does not move.
func (t *tiles) round(raw []float64, decimals int, known bool, from int) {
	for f, by := range factors {
		if f > 0 && from >= movedDraws {
			return
		}
		if t[f] == nil {
			t[f] = make([]float64, len(raw))
		}
		if known {
			by = 1
		}
		for i, x := range raw {
			t[f][i] = program.Round(x*by, decimals)
		}
	}
}

// arcRates returns the ARC-CO rates of a base, USD/acre, each against its own
// draw's coverage where that differs.
func (d *drawnYear) arcRates(h *holding, p part, price priceOutlook) *rateDraws {
	return d.arcRate.always(coverageKey{p.county, h.commodity, p.irrigatedShare}, func() *rateDraws {
		out, n := &rateDraws{rates: d.take()}, d.draws.Tile()
		rates, guarantee, most, raw := make([]float64, n), make([]float64, n), make([]float64, n), make([]float64, n)
		coverage := d.coverageOf(h.national, p)
		var prices tiles
		yields, shocks, at := make([]tiles, len(p.practices)), make([]*odds.Shock, len(p.practices)), make([]func(float64) crop.Yield, len(p.practices))
		for j, u := range p.practices {
			shocks[j], at[j] = d.shock(u), u.outlook.Quantile()
		}
		for from := 0; from < len(out.rates); from += n {
			prices.round(d.rawPrices(h.commodity, price)[from:from+n], price.Decimals, price.known, from)
			for j, u := range p.practices {
				shocks[j].Fill(raw, from)
				for i, z := range raw {
					raw[i] = at[j](z)
				}
				yields[j].round(raw, h.national.Terms.YieldDecimals, u.outlook.stage == odds.Final, from)
			}
			coverage(guarantee, most, from)
			for m, move := range movesAt(from) {
				f, g := move.factorOf()
				h.actualRevenues(rates, p, prices[f], yields, g)
				for i, revenue := range rates {
					rates[i] = program.ARCCO{Guarantee: guarantee[i], Maximum: most[i]}.Rate(revenue)
				}
				out.add(m, from, rates, most)
			}
		}
		out.done()
		return out
	})
}

// actualRevenues sets dst to the actual revenue of a base at some prices and
// county yields, those under a factor.
func (h *holding) actualRevenues(dst []crop.Revenue, p part, prices []crop.Price, yields []tiles, factor int) {
	if len(yields) == 1 {
		loan := h.national.Terms.LoanRate
		for i, yield := range yields[0][factor] {
			dst[i] = program.ActualRevenue(yield, program.ActualPrice(prices[i], loan))
		}
		return
	}
	loan, irrigated, nonirrigated := h.national.Terms.LoanRate, yields[0][factor], yields[1][factor]
	if p.practices[0].unit.practice == farm.Nonirrigated {
		irrigated, nonirrigated = nonirrigated, irrigated
	}
	for i, mya := range prices {
		price := program.ActualPrice(mya, loan)
		dst[i] = program.WeightedRevenue(p.irrigatedShare, program.ActualRevenue(irrigated[i], price), program.ActualRevenue(nonirrigated[i], price))
	}
}

// coverageOf returns what fills in guarantee and maximum of draws from, from+1 ...
func (d *drawnYear) coverageOf(n National, p part) func(guarantee, maximum []crop.Revenue, from int) {
	at := d.coverageAt(n, p)
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
