package payoff

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/scenario"
)

// Key names a payment rate: every farm with the same key is paid by it, so that it
// is worked out once. A rate of one operation has no key (the zero Key) and is not kept.
type Key struct {
	Program        farm.Program
	Commodity      crop.Commodity
	County         string     // under ARC-CO
	IrrigatedShare crop.Share // where the county has two yields
	Area           any        // areaKey of a layer of area insurance; nil: none
}

// Rate is what a program pays per unit or per acre.
type Rate interface {
	Key() Key
	// Fill sets the rate in each scenario of a tile, USD, rounded as the law rounds it,
	// and the most that it could be there.
	Fill(rates, most []float64, t *Tile)
}

// Year are the payment rates of a crop year's scenarios, each worked out once for
// all farms, and their summaries.
type Year struct {
	*scenario.Year
	made      parallel.Memo[Key, *Rates]
	moved     parallel.Memo[movedPrice, []crop.Price]
	summaries parallel.Memo[*Rates, *scenario.Summary]
}

// Rates are a payment rate in all scenarios.
type Rates struct {
	Scenarios []float64
	Means     [bandSize]float64 // average under each of Band

	replicates []float64 // average of each replicate of the scenarios
	full       float64   // share of scenarios in which it is the most there can be
	maximum    float64   // the most in any scenario
}

// RatesOf returns a payment rate in all scenarios.
func (y *Year) RatesOf(r Rate) *Rates {
	if r.Key() == (Key{}) {
		return y.work(r)
	}
	return y.made.Of(r.Key(), func() *Rates { return y.work(r) })
}

// work fills a rate tile by tile, with the means as they are and, on the first
// scenarios, moved.
func (y *Year) work(r Rate) *Rates {
	out := &Rates{Scenarios: y.Acquire()}
	var change [bandSize]float64 // summed over the scenarios it is worked out on
	var alike []int              // by place in Band, the first place with the same factors
	changed, t := 0, newTile(y)
	rates, most := make([]float64, t.Length), make([]float64, t.Length)
	for from := 0; from < len(out.Scenarios); from += t.Length {
		t.start(from)
		r.Fill(rates, most, t)
		copy(out.Scenarios[from:], rates)
		out.note(rates, most)
		if from >= movedScenarios {
			continue
		}
		changed += len(rates)
		if alike == nil {
			alike = t.alike()
		}
		for m, first := range alike {
			if m == 0 || first < m {
				change[m] = change[first]
				continue
			}
			t.means = Band[m]
			r.Fill(rates, most, t)
			change[m] += scenario.SumOf(rates) - scenario.SumOf(out.Scenarios[from:from+len(rates)])
		}
	}
	for j := range y.Size.Replicates {
		out.replicates = append(out.replicates, odds.Mean(out.Scenarios[j*y.Size.Points:(j+1)*y.Size.Points]))
	}
	mean := odds.Mean(out.replicates) // that of all scenarios: there are 2^k replicates of 2^m
	for m := range out.Means {
		out.Means[m] = mean + change[m]/float64(changed)
	}
	out.full /= float64(len(out.Scenarios))
	return out
}

// MeansUnder returns the average of a payment rate, USD, under each of some sensitivities.
// It is the average as drawn and what the moved means change on the first movedScenarios
// scenarios.
func (y *Year) MeansUnder(r Rate, all []Sensitivity) []float64 {
	drawn := y.RatesOf(r)
	change, t := make([]float64, len(all)), newTile(y)
	rates, most := make([]float64, t.Length), make([]float64, t.Length)
	n := min(movedScenarios, len(drawn.Scenarios))
	for from := 0; from < n; from += t.Length {
		t.start(from)
		for k, means := range all {
			t.means = means
			r.Fill(rates, most, t)
			for i, x := range rates {
				change[k] += x - drawn.Scenarios[from+i]
			}
		}
	}
	for k := range change {
		change[k] = drawn.Means[0] + change[k]/float64(n)
	}
	return change
}

// note counts one tile of rates; most is what each can be at most.
func (r *Rates) note(rates, most []float64) {
	for i, rate := range rates {
		if rate > 0 && rate >= most[i]-crop.Noise {
			r.full++
		}
		r.maximum = max(r.maximum, most[i])
	}
}

// summaryOf summarizes rates, which many farms share.
func (y *Year) summaryOf(r *Rates) scenario.Summary {
	return *y.summaries.Of(r, func() *scenario.Summary {
		s := y.Describe(r.Scenarios)
		s.AtMaximum, s.Maximum = r.full, r.maximum
		return &s
	})
}
