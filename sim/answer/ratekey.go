package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// key names a payment rate: every farm with the same key is paid by it, so that it
// is worked out once.
type key struct {
	program        farm.Program
	commodity      crop.Commodity
	county         string     // under ARC-CO
	irrigatedShare crop.Share // where the county has two yields
}

// rate is what a program pays per unit or per acre.
type rate interface {
	key() key
	// fill sets what is paid in each scenario of a tile, USD, rounded as the law
	// rounds it, and the most that could be.
	fill(rates, most []float64, t *tile)
}

// sensitivity moves the mean price and the mean county yields in proportion.
type sensitivity struct{ price, yield float64 }

// sensitivities are the means as drawn, then each moved either way.
var sensitivities = [...]sensitivity{{1, 1}, {1 - odds.LeadMove, 1}, {1 + odds.LeadMove, 1}, {1, 1 - odds.LeadMove}, {1, 1 + odds.LeadMove}}

// movedDraws is the number of scenarios, from the first on, that moved means are worked
// out on: what an average changes by is far surer than the average itself.
const movedDraws = 1 << 14

// yearRates are the payment rates of a crop year's scenarios, each worked out once for
// all farms, and their summaries.
type yearRates struct {
	*drawnYear
	made   kept[key, *rateDraws]
	shapes kept[*rateDraws, shape]
}

// rateDraws are a payment rate in all scenarios.
type rateDraws struct {
	rates   []float64
	mean    [len(sensitivities)]float64 // average under each
	full    float64                     // share of scenarios in which it is the most there can be
	maximum float64                     // the most in any scenario
}

// of returns a payment rate in all scenarios.
func (y *yearRates) of(r rate) *rateDraws {
	return y.made.always(r.key(), func() *rateDraws {
		out := &rateDraws{rates: y.take()}
		var change [len(sensitivities)]float64 // summed over the scenarios it is worked out on
		changed, t := 0, newTile(y.drawnYear)
		rates, most := make([]float64, t.length), make([]float64, t.length)
		for from := 0; from < len(out.rates); from += t.length {
			t.start(from)
			r.fill(rates, most, t)
			copy(out.rates[from:], rates)
			out.note(rates, most)
			if from >= movedDraws {
				continue
			}
			changed += len(rates)
			for m, means := range sensitivities {
				if m > 0 && t.depends(means) {
					t.means = means
					r.fill(rates, most, t)
					change[m] += sumOf(rates) - sumOf(out.rates[from:from+len(rates)])
				}
			}
		}
		mean := odds.Mean(out.rates)
		for m := range out.mean {
			out.mean[m] = mean + change[m]/float64(changed)
		}
		out.full /= float64(len(out.rates))
		return out
	})
}

// meansUnder returns the average of a payment rate with its means moved. Like every
// move of a mean it is worked out on the first movedDraws scenarios, by what it changes
// there.
func (y *yearRates) meansUnder(r rate, all []sensitivity) []float64 {
	drawn := y.of(r)
	change, t := make([]float64, len(all)), newTile(y.drawnYear)
	rates, most := make([]float64, t.length), make([]float64, t.length)
	draws := min(movedDraws, len(drawn.rates))
	for from := 0; from < draws; from += t.length {
		t.start(from)
		for k, means := range all {
			t.means = means
			r.fill(rates, most, t)
			for i, x := range rates {
				change[k] += x - drawn.rates[from+i]
			}
		}
	}
	for k := range change {
		change[k] = drawn.mean[0] + change[k]/float64(draws)
	}
	return change
}

// note counts one tile of rates; most is what each can be at most.
func (r *rateDraws) note(rates, most []float64) {
	for i, rate := range rates {
		if rate > 0 && rate >= most[i]-crop.Noise {
			r.full++
		}
		r.maximum = max(r.maximum, most[i])
	}
}

// shapeOfRates describes rates, which many farms share.
func (y *yearRates) shapeOfRates(r *rateDraws) shape {
	return y.shapes.always(r, func() shape {
		s := y.describe(r.rates)
		s.full, s.maximum = r.full, r.maximum
		return s
	})
}
