package paths

import (
	"fmt"
	"runtime"
	"sync"

	"fencerow/program"
	"fencerow/sim/odds"
)

// Result describes what the programs pay.
type Result struct {
	PerAcre [][][2]Series // [year][commodity][PLC, ARC-CO], USD per base acre
	Ahead   [][]float64   // [year][commodity]: share of draws in which ARC-CO pays more
	Totals  [][]Series    // [year][choice], USD of all base within the limit; bit k of a choice: commodity k under ARC-CO
	Draws   int
}

const plc, arcco = 0, 1

// Run draws the courses and sums them up. Draws of one replicate are made by one
// goroutine in their order, so that the result has the same bytes on any number
// of processors. An error means that the county's slices do not fit.
func Run(c County, d odds.Draws) (Result, error) {
	if err := c.check(); err != nil {
		return Result{}, err
	}
	samplers, err := c.samplers(d)
	if err != nil {
		return Result{}, err
	}
	workers := make([]*worker, min(d.Replicates, runtime.GOMAXPROCS(0)))
	var wait sync.WaitGroup
	for n := range workers {
		workers[n] = newWorker(c, d, samplers)
		wait.Go(func() {
			for r := n; r < d.Replicates; r += len(workers) {
				workers[n].replicate(r)
			}
		})
	}
	wait.Wait()
	for _, other := range workers[1:] {
		workers[0].merge(other)
	}
	return workers[0].result(), nil
}

// samplers returns that of each year. As many years share one as it has columns
// for, so that their normals are spread evenly together.
func (c County) samplers(d odds.Draws) ([]*odds.Sampler, error) {
	together := c.yearsTogether()
	all := make([]*odds.Sampler, c.Years)
	for t := range all {
		if t%together > 0 {
			all[t] = all[t-1]
			continue
		}
		var err error
		if all[t], err = odds.NewSampler(d, c.First+t, nil); err != nil {
			return nil, fmt.Errorf("crop year %d: %w", c.First+t, err)
		}
	}
	return all, nil
}

// yearsTogether is how many years have columns in one sampler.
func (c County) yearsTogether() int { return odds.SharedDimensions / (2 * len(c.Commodities)) }

// worker draws whole replicates. Its tiles are used again and again.
type worker struct {
	c        County
	d        odds.Draws
	samplers []*odds.Sampler

	normals   [][]float64   // independent, of one year
	shock     [][][]float64 // [year][commodity], of prices
	price     [][][]float64 // [lags + year][commodity], past ones the same in every draw
	yield     [][][]float64
	target    [][][]float64 // [year][commodity]; of the first years the same in every draw
	benchmark [][][2][]float64
	z, most   []float64
	pays      [][2][]float64 // [commodity][program]
	total     [][]float64    // [choice]

	perAcre [][][2]*tally
	totals  [][]*tally
	ahead   [][]uint64
}

func newWorker(c County, d odds.Draws, samplers []*odds.Sampler) *worker {
	n, kinds := d.Tile(), len(c.Commodities)
	tile := func() []float64 { return make([]float64, n) }
	rows := func(k int) (all [][]float64) {
		for range k {
			all = append(all, tile())
		}
		return all
	}
	w := &worker{c: c, d: d, samplers: samplers, normals: rows(2 * kinds), z: tile(), most: tile(), total: rows(1 << kinds)}
	for range lags + c.Years {
		w.price, w.yield = append(w.price, rows(kinds)), append(w.yield, rows(kinds))
	}
	for k, of := range c.Commodities {
		for i := range lags {
			fill(w.price[i][k], of.PastPrices[i])
			fill(w.yield[i][k], of.PastYields[i])
		}
		w.pays = append(w.pays, [2][]float64{tile(), tile()})
	}
	for t := range c.Years {
		w.shock, w.target = append(w.shock, rows(kinds)), append(w.target, rows(kinds))
		w.benchmark = append(w.benchmark, make([][2][]float64, kinds))
		w.perAcre, w.ahead = append(w.perAcre, make([][2]*tally, kinds)), append(w.ahead, make([]uint64, kinds))
		for k, of := range c.Commodities {
			w.benchmark[t][k] = [2][]float64{tile(), tile()}
			top := of.tops(t)
			w.perAcre[t][k] = [2]*tally{newTally(top[plc], d.Replicates), newTally(top[arcco], d.Replicates)}
			if t < lags-4 { // all five years are past
				w.look(t, k)
			}
		}
		w.totals = append(w.totals, nil)
		for range 1 << kinds {
			w.totals[t] = append(w.totals[t], newTally(c.Limit, d.Replicates))
		}
	}
	return w
}

func fill(dst []float64, x float64) {
	for i := range dst {
		dst[i] = x
	}
}

// tops are the most that the programs can pay per base acre in a year: of PLC at
// the highest effective reference price there can be, of ARC-CO at twice the mean
// yield and that price.
func (k Commodity) tops(t int) [2]float64 {
	terms := k.Terms[t]
	perAcre := k.PaymentAcres / k.BaseAcres
	highest := program.Round(terms.EffectiveLimit*terms.ReferencePrice, terms.PriceDecimals)
	most := terms.ARCCO(2*k.Yields[t], 2*highest).Maximum
	return [2]float64{terms.PLC(highest).MaximumRate() * k.PaymentYield * perAcre, most * perAcre}
}

// look works out reference and benchmark figures of a year from the five years
// before.
func (w *worker) look(t, k int) {
	terms := w.c.Commodities[k].Terms[t]
	var fivePrices, fiveYields [5][]float64
	for i := range fivePrices {
		at := lags + t - terms.OldestLag + i
		fivePrices[i], fiveYields[i] = w.price[at][k], w.yield[at][k]
	}
	target, benchmark := w.target[t][k], w.benchmark[t][k]
	olympic(target, fivePrices, nil)
	targets(target, terms)
	olympic(benchmark[0], fivePrices, target)
	round(benchmark[0], terms.BenchmarkDecimals)
	olympic(benchmark[1], fiveYields, nil)
	round(benchmark[1], terms.YieldDecimals)
}

// replicate draws one replicate, tile by tile.
func (w *worker) replicate(r int) {
	for from := r * w.d.Points; from < (r+1)*w.d.Points; from += w.d.Tile() {
		for t := range w.c.Years {
			w.draw(t, from)
			for k := range w.c.Commodities {
				w.pay(t, k, r)
			}
			w.addTotals(t, r)
		}
	}
}

// draw makes prices and yields of one year.
func (w *worker) draw(t, from int) {
	kinds := len(w.c.Commodities)
	w.samplers[t].Normals(w.normals, t%w.c.yearsTogether()*2*kinds, from)
	for k, of := range w.c.Commodities {
		shock, terms := w.shock[t][k], of.Terms[t]
		correlate(shock, w.c.Loadings[k], w.normals)
		if of.Carry[t] != 0 {
			carry(shock, w.shock[t-1][k], of.Carry[t])
		}
		prices(w.price[lags+t][k], shock, of.Prices[t], of.Sigma[t], terms.PriceDecimals)
		correlate(w.z, w.c.Loadings[kinds+k], w.normals)
		yields(w.yield[lags+t][k], w.z, of.Yields[t], of.YieldSD, terms.YieldDecimals)
	}
}

// pay pays one commodity of one year under both programs and counts it.
func (w *worker) pay(t, k, replicate int) {
	of, terms := w.c.Commodities[k], w.c.Commodities[k].Terms[t]
	if t >= lags-4 {
		w.look(t, k)
	}
	pays := w.pays[k]
	perAcre := of.PaymentAcres / of.BaseAcres
	plcRates(pays[plc], w.price[lags+t][k], w.target[t][k], terms)
	scale(pays[plc], of.PaymentYield*perAcre)
	arcRates(pays[arcco], w.most, w.price[lags+t][k], w.yield[lags+t][k], w.benchmark[t][k][0], w.benchmark[t][k][1], terms)
	scale(pays[arcco], perAcre)
	for p := range pays {
		w.perAcre[t][k][p].add(pays[p], replicate)
	}
	ahead := uint64(0)
	for i, arc := range pays[arcco] {
		if arc > pays[plc][i] {
			ahead++
		}
	}
	w.ahead[t][k] += ahead
}

// addTotals counts the farm's total under every choice, within the limit. Choices
// of the first commodities are summed before the next one doubles them.
func (w *worker) addTotals(t, replicate int) {
	clear(w.total[0])
	for k, of := range w.c.Commodities {
		pays := w.pays[k]
		scale(pays[plc], of.BaseAcres)
		scale(pays[arcco], of.BaseAcres)
		for choice := range 1 << k {
			add(w.total[choice|1<<k], w.total[choice], pays[arcco])
			add(w.total[choice], w.total[choice], pays[plc])
		}
	}
	for choice, total := range w.total {
		atMost(total, w.c.Limit)
		w.totals[t][choice].add(total, replicate)
	}
}

func (w *worker) merge(other *worker) {
	for t := range w.perAcre {
		for k := range w.perAcre[t] {
			for p := range w.perAcre[t][k] {
				w.perAcre[t][k][p].merge(other.perAcre[t][k][p])
			}
			w.ahead[t][k] += other.ahead[t][k]
		}
		for choice := range w.totals[t] {
			w.totals[t][choice].merge(other.totals[t][choice])
		}
	}
}

func (w *worker) result() Result {
	n := w.d.N()
	out := Result{Draws: n}
	for t := range w.perAcre {
		var perAcre [][2]Series
		var ahead []float64
		for k, both := range w.perAcre[t] {
			perAcre = append(perAcre, [2]Series{both[plc].series(n), both[arcco].series(n)})
			ahead = append(ahead, float64(w.ahead[t][k])/float64(n))
		}
		var totals []Series
		for _, tally := range w.totals[t] {
			totals = append(totals, tally.series(n))
		}
		out.PerAcre, out.Ahead, out.Totals = append(out.PerAcre, perAcre), append(out.Ahead, ahead), append(out.Totals, totals)
	}
	return out
}
