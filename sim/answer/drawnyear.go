package answer

import (
	"sync"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// paths are the draws of all crop years of a case. In each draw a crop year
// follows from those before it: its price from last year's, its reference price,
// benchmark price and benchmark yield from the five years that the law names. A
// year is drawn when it is first needed, alike whatever else is asked.
type paths struct {
	sources
	*buffers
	extremesTogether bool
	years            kept[crop.CropYear, *drawnYear]
}

// settings say how much is drawn, and how.
type settings struct {
	Seed             uint64
	Draws            int  // at least so many; rounded up to 16 times a power of two
	ExtremesTogether bool // a stress: extremes of one year come together more often
	Brief            bool // for many farms: without errors of percentiles
}

func newPaths(from sources, s settings) *paths {
	p := &paths{sources: from, extremesTogether: s.ExtremesTogether, buffers: &buffers{draws: odds.NewDraws(s.Seed, s.Draws), brief: s.Brief}}
	if from.PastYears {
		p.distinct = len(odds.PastYears())
	}
	return p
}

// drawnYear is one crop year's draws, shared by all farms. Every price and county
// yield is drawn once; what a farm draws does not depend on what else is in the
// file (sim/odds, dependence.go).
type drawnYear struct {
	*paths
	cropYear crop.CropYear
	sampler  *odds.Sampler

	priceShocks    kept[crop.Commodity, []float64]
	drawnPrices    kept[crop.Commodity, []crop.Price] // not yet rounded
	roundedPrices  kept[crop.Commodity, []crop.Price]
	roundedYields  kept[countyUnit, []crop.Yield]
	target         kept[crop.Commodity, []crop.Price]
	benchmarkPrice kept[crop.Commodity, []crop.Price]
	benchmarkYield kept[countyUnit, []crop.Yield]
}

// kept are values that are each made once, when first asked for.
type kept[K comparable, V any] struct{ made sync.Map }

func (k *kept[K, V]) get(key K, make func() (V, error)) (V, error) {
	once, _ := k.made.LoadOrStore(key, sync.OnceValues(make))
	return once.(func() (V, error))()
}

// always is get for what cannot fail.
func (k *kept[K, V]) always(key K, make func() V) V {
	v, _ := k.get(key, func() (V, error) { return make(), nil })
	return v
}

// year returns the draws of a crop year.
func (p *paths) year(y crop.CropYear) (*drawnYear, error) {
	return p.years.get(y, func() (*drawnYear, error) {
		sampler, err := odds.NewSampler(p.draws, y, priceCorrelations(p.Market))
		if err == nil && p.PastYears {
			sampler.FromHistory()
		}
		if err == nil && p.extremesTogether {
			sampler.ExtremesTogether()
		}
		return &drawnYear{paths: p, cropYear: y, sampler: sampler}, err
	})
}

// drawn returns the draws of an earlier crop year whose price of a commodity is
// not known; ok is false where it is known or has no projection.
func (p *paths) drawn(c crop.Commodity, y crop.CropYear) (year *drawnYear, price priceOutlook, ok bool) {
	decimals, err := priceDecimals(c, y)
	if err != nil {
		return nil, price, false
	}
	price, ok = p.priceOutlook(c, y, decimals)
	if !ok || price.known {
		return nil, price, false
	}
	year, err = p.year(y)
	return year, price, err == nil
}

// priceShock returns the standard normals behind a price: this year's surprise
// and what is left of last year's.
func (d *drawnYear) priceShock(c crop.Commodity, p priceOutlook) []float64 {
	return d.priceShocks.always(c, func() []float64 {
		own := d.sampler.PriceShock(c)
		before, earlier, ok := d.drawn(c, d.cropYear-1)
		if !ok {
			return own
		}
		dst := d.take()
		odds.Carried(dst, before.priceShock(c, earlier), own, earlier.sigma, p.sigma)
		return dst
	})
}

// rawPrices returns the drawn price of each outcome before rounding.
func (d *drawnYear) rawPrices(c crop.Commodity, p priceOutlook) []crop.Price {
	return d.drawnPrices.always(c, func() []crop.Price {
		if p.samples != nil {
			return odds.Reordered(p.samples, d.priceShock(c, p))
		}
		dst := d.take()
		p.Draw(dst, d.priceShock(c, p), nil)
		return dst
	})
}

// prices returns the drawn price of each outcome, rounded as FSA prints it.
func (d *drawnYear) prices(c crop.Commodity, p priceOutlook) []crop.Price {
	return d.roundedPrices.always(c, func() []crop.Price {
		dst := d.take()
		for i, x := range d.rawPrices(c, p) {
			dst[i] = program.Round(x, p.Decimals)
		}
		return dst
	})
}

// yields returns the drawn county yield of each outcome for one practice,
// rounded as FSA prints it.
func (d *drawnYear) yields(decimals int, u practicePart) []crop.Yield {
	return d.roundedYields.always(u.unit, func() []crop.Yield {
		dst, n, shock, at := d.take(), d.draws.Tile(), d.shock(u), u.outlook.Quantile()
		for from := 0; from < len(dst); from += n {
			tile := dst[from : from+n]
			shock.Fill(tile, from)
			for i, z := range tile {
				tile[i] = program.Round(at(z), decimals)
			}
		}
		return dst
	})
}

// shock is how the standard normals behind a county yield are made.
func (d *drawnYear) shock(u practicePart) *odds.Shock {
	if u.outlook.past != nil {
		return d.sampler.PastShock(u.outlook.past)
	}
	key := odds.YieldKey{County: u.unit.county, Practice: string(u.unit.practice), Commodity: u.unit.commodity}
	return d.sampler.YieldShock(key, odds.YieldDependence{
		Price:     u.outlook.correlation,
		Counties:  odds.CountyCorrelation(u.unit.commodity, u.outlook.stage),
		Practices: odds.PracticeCorrelation,
	})
}

// pastPrices returns the five prices that the law looks back at, in each draw;
// ok is false where all are known, or one is missing.
func (d *drawnYear) pastPrices(n National) (past [5]lagged, ok bool) {
	for i, y := range n.Terms.BenchmarkYears() {
		if n.History[i].Status == "" {
			return past, false
		}
		past[i].known = n.History[i].Value
		if year, price, drawn := d.drawn(n.Terms.Commodity, y); drawn {
			past[i].drawn, ok = year.prices(n.Terms.Commodity, price), true
		}
	}
	return past, ok
}

// lagged is a figure of an earlier year: known, or drawn.
type lagged struct {
	known float64
	drawn []float64 // nil: known
}

// five returns the values of one draw.
func five(past [5]lagged, draw int) (values [5]float64) {
	for i, p := range past {
		values[i] = p.known
		if p.drawn != nil {
			values[i] = p.drawn[draw]
		}
	}
	return values
}

// targets returns what PLC pays up to in each draw, nil where it is the same in
// all.
func (d *drawnYear) targets(n National) []crop.Price {
	return d.target.always(n.Terms.Commodity, func() []crop.Price {
		past, ok := d.pastPrices(n)
		if !ok || !n.Terms.HasEffective {
			return nil
		}
		return d.each(func(i int) float64 { return n.Terms.TargetPrice(five(past, i)) })
	})
}

// benchmarkPrices returns the benchmark price of each draw, nil where it is the
// same in all.
func (d *drawnYear) benchmarkPrices(n National) []crop.Price {
	return d.benchmarkPrice.always(n.Terms.Commodity, func() []crop.Price {
		past, ok := d.pastPrices(n)
		if !ok {
			return nil
		}
		targets := d.targets(n)
		return d.each(func(i int) float64 {
			floor := n.Target.Value
			if targets != nil {
				floor = targets[i]
			}
			return program.BenchmarkPrice(five(past, i), floor, n.Terms.BenchmarkDecimals)
		})
	})
}

// each makes a series draw by draw.
func (d *drawnYear) each(at func(draw int) float64) []float64 {
	dst := d.take()
	for i := range dst {
		dst[i] = at(i)
	}
	return dst
}

// benchmarkYields returns a county's benchmark yield in each draw, nil where it
// is the same in all.
func (d *drawnYear) benchmarkYields(u practicePart, decimals int) []crop.Yield {
	if u.benchmark.ahead == nil || !u.benchmark.ahead.drawn() {
		return nil
	}
	return d.benchmarkYield.always(u.unit, func() []crop.Yield {
		var past [5]lagged
		for i, cell := range u.benchmark.ahead.cells {
			past[i].known = cell.value
			if cell.outlook != nil {
				past[i].drawn = d.adjusted(u.unit, cell, decimals)
			}
		}
		return d.each(func(i int) float64 { return program.BenchmarkYield(five(past, i), decimals) })
	})
}

// adjusted returns one of the five yields in each draw of its crop year.
func (d *drawnYear) adjusted(u countyUnit, cell adjustedCell, decimals int) []crop.Yield {
	u.cropYear = cell.cropYear
	year, err := d.year(cell.cropYear)
	if err != nil {
		return nil
	}
	drawn := year.yields(decimals, practicePart{unit: u, outlook: *cell.outlook})
	return d.each(func(i int) float64 {
		return program.AdjustedYield(drawn[i], cell.plug, cell.trend, cell.cropYear, d.cropYear, decimals)
	})
}
