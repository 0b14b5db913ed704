package payoff

import (
	"slices"
	"sync"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/position"
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
	made  parallel.Memo[Key, *Rates]
	moved parallel.Memo[Key, *[]crop.Price] // prices, by commodity and factor

	mutex sync.Mutex
	all   []*Rates // that were worked out
}

// keep notes rates for Forget.
func (y *Year) keep(r *Rates) {
	y.mutex.Lock()
	defer y.mutex.Unlock()
	y.all = append(y.all, r)
}

// Forget gives the series of all rates back, when nothing more is asked of the crop year: no
// series of it may be in use any more.
func (y *Year) Forget() {
	for _, r := range y.all {
		y.Release(r.Scenarios)
		r.Scenarios = nil
	}
	y.all = nil
}

// Rates are a payment rate in all scenarios.
type Rates struct {
	Scenarios []float64
	Means     [bandSize]float64 // average under each of Band

	replicates []float64 // average of each replicate of the scenarios

	once    sync.Once
	summary scenario.Summary
	full    float64 // share of scenarios in which it is the most there can be
	maximum float64 // the most in any scenario
}

// RatesOf returns a payment rate in all scenarios.
func (y *Year) RatesOf(r Rate) *Rates {
	if r.Key() == (Key{}) {
		return y.work(r)
	}
	return y.made.Of(r.Key(), func() *Rates { return y.work(r) })
}

// work fills a rate tile by tile.
func (y *Year) work(r Rate) *Rates { return y.workAll([]Rate{r}, nil)[0] }

// workAll fills rates tile by tile, with the means as they are and, on the first scenarios,
// moved; also is called for each block of scenarios beside them, so that it shares what is made
// for the block. nil: nothing else.
func (y *Year) workAll(rates []Rate, also func(block *scenario.Year, first int)) []*Rates {
	var works []*rateWork
	var all []*Rates
	n := y.Size.Tile()
	for _, r := range rates {
		out := &Rates{Scenarios: y.Acquire()}
		y.keep(out)
		all, works = append(all, out), append(works, &rateWork{Rates: out, rate: r, rates: make([]float64, n), most: make([]float64, n)})
	}
	y.EachBlock(func(block *scenario.Year, first int) {
		of := y.of(block)
		for _, w := range works {
			w.fill(of, first)
		}
		if also != nil {
			also(block, first)
		}
	})
	for _, w := range works {
		w.finish(y.Size)
	}
	return all
}

// of returns the rates of a block of the crop year's scenarios; of all of them, y.
func (y *Year) of(block *scenario.Year) *Year {
	if block == y.Year {
		return y
	}
	return &Year{Year: block}
}

// rateWork is a rate that is being worked out.
type rateWork struct {
	*Rates
	rate        Rate
	rates, most []float64         // of a tile
	change      [bandSize]float64 // summed over the scenarios it is worked out on
	changed     int               // how many these are
	alike       []int             // by place in Band, the first place with the same factors
}

// fill fills a block of scenarios, of which first is the first.
func (w *rateWork) fill(block *Year, first int) {
	t := newTile(block)
	for from := 0; from < block.Size.N(); from += t.Length {
		t.start(from)
		w.rate.Fill(w.rates, w.most, t)
		drawn := w.Scenarios[first+from : first+from+t.Length]
		copy(drawn, w.rates)
		w.note(w.rates, w.most)
		if w.changed < movedScenarios {
			w.move(t, drawn)
		}
	}
}

// move adds what the moved means change in a tile.
func (w *rateWork) move(t *Tile, drawn []float64) {
	w.changed += len(drawn)
	if w.alike == nil {
		w.alike = t.alike()
	}
	for m, like := range w.alike {
		if m == 0 || like < m {
			w.change[m] = w.change[like]
			continue
		}
		t.means = Band[m]
		w.rate.Fill(w.rates, w.most, t)
		w.change[m] += scenario.SumOf(w.rates) - scenario.SumOf(drawn)
	}
}

// finish works out what is known of the whole series.
func (w *rateWork) finish(d odds.Scenarios) {
	for j := range d.Replicates {
		w.replicates = append(w.replicates, odds.Mean(w.Scenarios[j*d.Points:(j+1)*d.Points]))
	}
	mean := odds.Mean(w.replicates) // that of all scenarios: there are 2^k replicates of 2^m
	for m := range w.Means {
		w.Means[m] = mean + w.change[m]/float64(w.changed)
	}
	w.full /= float64(len(w.Scenarios))
}

// DrawnPrices returns effective reference price and benchmark price of a commodity by
// scenario, USD per unit, nil where they are the same in all. They may be shared: read them
// only. Where scenarios are made block by block, the base's rates are worked out beside them.
// Call release when done.
func (y *Year) DrawnPrices(h *position.CommodityBase, price position.Price) (targets, benchmarks []crop.Price, release func()) {
	if !y.InBlocks() {
		return y.Targets(h.National), y.BenchmarkPrices(h.National), func() {}
	}
	var drawn [2][]crop.Price
	rates := y.unknownRates(h, price)
	all := y.workAll(rates, func(block *scenario.Year, first int) {
		for i, one := range [...][]crop.Price{block.Targets(h.National), block.BenchmarkPrices(h.National)} {
			if one != nil && drawn[i] == nil {
				drawn[i] = y.Acquire()
			}
			copy(drawn[i][min(first, len(drawn[i])):], one)
		}
	})
	for i, made := range all {
		y.made.Of(rates[i].Key(), func() *Rates { return made })
	}
	return drawn[0], drawn[1], func() { y.Release(drawn[:]...) }
}

// unknownRates returns the rates of a commodity base that were not worked out yet.
func (y *Year) unknownRates(h *position.CommodityBase, price position.Price) (rates []Rate) {
	if h.PLCMissing == "" {
		rates = append(rates, &PLCRate{Base: h, Price: price})
	}
	for k, b := range h.Bases {
		if h.ARCMissing == "" && (k == 0 || !h.SameRate(k, k-1)) {
			rates = append(rates, &ARCCORate{Of: h, Base: b, Price: price})
		}
	}
	return slices.DeleteFunc(rates, func(r Rate) bool { _, known := y.made.Known(r.Key()); return known })
}

// MeansUnder returns the average of a payment rate, USD, under each of some sensitivities.
// It is the average as drawn and what the moved means change on the first movedScenarios
// scenarios.
func (y *Year) MeansUnder(r Rate, all []Sensitivity) []float64 {
	drawn := y.RatesOf(r)
	block, release := y.FirstBlock()
	defer release()
	change, t := make([]float64, len(all)), newTile(y.of(block))
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
	r.once.Do(func() {
		r.summary = y.Describe(r.Scenarios)
		r.summary.AtMaximum, r.summary.Maximum = r.full, r.maximum
	})
	return r.summary
}
