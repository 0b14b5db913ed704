package scenario

import (
	"sync"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
	"fencerow/sim/position"
)

// Paths are the scenarios of a question over all its crop years. In each scenario a
// crop year follows from those before it: its price from the price of the year before,
// its reference price, benchmark price and benchmark yield from the five years that
// the law names. A crop year is drawn when it is first needed, and comes out the same
// whatever else is asked.
type Paths struct {
	position.Sources
	*Buffers
	extremesTogether bool
	sampled          bool // some price is a list of samples, so that every scenario depends on all others
	sampler          func(crop.CropYear) (*odds.Sampler, error)
	years            parallel.Memo[crop.CropYear, *Year]
	blocks           struct { // buffers of blocks that are not in use
		sync.Mutex
		free []*Buffers
	}
}

// Settings say how many scenarios there are, and how they are made.
type Settings struct {
	Seed             uint64
	Draws            int  // at least so many scenarios; rounded up to 16 times a power of two
	ExtremesTogether bool // a stress: odds.Sampler.ExtremesTogether
	Brief            bool // without standard errors of percentiles, for very many farms
}

// NewPaths prepares the scenarios of all crop years; nothing is drawn yet.
func NewPaths(from position.Sources, s Settings) *Paths {
	p := &Paths{Sources: from, extremesTogether: s.ExtremesTogether, Buffers: &Buffers{Size: odds.NewScenarios(s.Seed, s.Draws), withoutErrors: s.Brief}}
	p.sampler = p.newSampler
	if from.PastYears {
		p.Distinct = len(odds.PastYears())
	}
	for _, byYear := range from.Market.Outlook {
		for _, outlook := range byYear {
			p.sampled = p.sampled || len(outlook.Samples) > 0
		}
	}
	return p
}

// Year holds one crop year's prices and county yields by scenario, shared by all
// farms. Each is made once, when first asked for, and does not depend on what else is
// in the file (sim/odds, dependence.go).
type Year struct {
	*Paths
	CropYear crop.CropYear
	Sampler  *odds.Sampler

	priceShocks     parallel.Memo[crop.Commodity, []float64]
	unroundedPrices parallel.Memo[crop.Commodity, []crop.Price] // not yet rounded
	roundedPrices   parallel.Memo[crop.Commodity, []crop.Price]
	roundedYields   parallel.Memo[position.CountyUnit, []crop.Yield]
	target          parallel.Memo[crop.Commodity, []crop.Price]
	benchmarkPrice  parallel.Memo[crop.Commodity, []crop.Price]
	benchmarkYield  parallel.Memo[position.CountyUnit, []crop.Yield]
	harvestPrice    parallel.Memo[insuredPrice, []crop.Price]
}

// Year returns the scenarios of a crop year; price correlations that cannot hold are
// an error (odds.NewSampler).
func (p *Paths) Year(y crop.CropYear) (*Year, error) {
	return p.years.Get(y, func() (*Year, error) {
		sampler, err := p.sampler(y)
		return &Year{Paths: p, CropYear: y, Sampler: sampler}, err
	})
}

// newSampler returns the sampler of all scenarios of a crop year.
func (p *Paths) newSampler(y crop.CropYear) (*odds.Sampler, error) {
	sampler, err := odds.NewSampler(p.Size, y, position.PriceCorrelations(p.Market))
	if err == nil && p.PastYears {
		sampler.FromHistory()
	}
	if err == nil && p.extremesTogether {
		sampler.ExtremesTogether()
	}
	return sampler, err
}

// unknownPriceYear returns a crop year, and its price of a commodity, where that price
// differs by scenario; ok is false where it is known or has no projection.
func (p *Paths) unknownPriceYear(c crop.Commodity, y crop.CropYear) (year *Year, price position.Price, ok bool) {
	decimals, err := position.PriceDecimals(c, y)
	if err != nil {
		return nil, price, false
	}
	price, ok = p.Price(c, y, decimals)
	if !ok || price.Final {
		return nil, price, false
	}
	year, err = p.Year(y)
	return year, price, err == nil
}

// PriceBefore returns the price of the crop year before by scenario, USD per unit, not
// rounded; nil where it is known or has no projection. The series is shared: read it only.
func (d *Year) PriceBefore(c crop.Commodity) []crop.Price {
	before, price, ok := d.unknownPriceYear(c, d.CropYear-1)
	if !ok {
		return nil
	}
	return before.UnroundedPrices(c, price)
}

// PriceShock returns the standard normals behind a price: this year's surprise and
// what is left of last year's.
func (d *Year) PriceShock(c crop.Commodity, p position.Price) []float64 {
	return d.priceShocks.Of(c, func() []float64 {
		own := d.Sampler.PriceShock(c)
		before, earlier, ok := d.unknownPriceYear(c, d.CropYear-1)
		if !ok {
			return own
		}
		dst := d.Acquire()
		odds.PersistentShocks(dst, before.PriceShock(c, earlier), own, earlier.WholeSD, p.WholeSD)
		return dst
	})
}

// UnroundedPrices returns the price by scenario before rounding, USD per unit. The
// series is shared: read it only.
func (d *Year) UnroundedPrices(c crop.Commodity, p position.Price) []crop.Price {
	return d.unroundedPrices.Of(c, func() []crop.Price {
		if p.Samples != nil {
			return odds.Reordered(p.Samples, d.PriceShock(c, p))
		}
		dst := d.Acquire()
		p.Draw(dst, d.PriceShock(c, p), nil)
		return dst
	})
}

// Prices returns the price by scenario, USD per unit, rounded as FSA prints it. The
// series is shared: read it only.
func (d *Year) Prices(c crop.Commodity, p position.Price) []crop.Price {
	return d.roundedPrices.Of(c, func() []crop.Price {
		dst := d.Acquire()
		for i, x := range d.UnroundedPrices(c, p) {
			dst[i] = program.Round(x, p.Decimals)
		}
		return dst
	})
}

// Yields returns the county yield of one practice by scenario, units per acre, rounded
// as FSA prints it. The series is shared: read it only.
func (d *Year) Yields(decimals int, u position.Practice) []crop.Yield {
	return d.roundedYields.Of(u.Unit, func() []crop.Yield {
		dst, n, shock, at := d.Acquire(), d.Size.Tile(), d.YieldShock(u), u.Outlook.Quantile()
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

// YieldShock returns how the standard normals behind a county yield are made.
func (d *Year) YieldShock(u position.Practice) *odds.Shock {
	if u.Outlook.PastDeviations != nil {
		return d.Sampler.PastShock(u.Outlook.PastDeviations)
	}
	key := odds.YieldKey{County: u.Unit.County, Practice: string(u.Unit.Practice), Commodity: u.Unit.Commodity}
	return d.Sampler.YieldShock(key, odds.DependenceAtStage(u.Unit.Commodity, u.Outlook.Stage, u.Outlook.Correlation))
}

// pastPrices returns the five prices that the law looks back at; ok is false where all
// are known, or one is missing.
func (d *Year) pastPrices(n position.National) (past [5]pastFigure, ok bool) {
	for i, y := range n.Terms.BenchmarkYears() {
		if n.History[i].Status == "" {
			return past, false
		}
		past[i].known = n.History[i].Value
		if year, price, drawn := d.unknownPriceYear(n.Terms.Commodity, y); drawn {
			past[i].byScenario, ok = year.Prices(n.Terms.Commodity, price), true
		}
	}
	return past, ok
}

// pastFigure is a price or yield of an earlier crop year: known, or different by
// scenario.
type pastFigure struct {
	known      float64
	byScenario []float64 // nil: known
}

// valuesIn returns the five figures in one scenario.
func valuesIn(past [5]pastFigure, scenario int) (values [5]float64) {
	for i, p := range past {
		values[i] = p.known
		if p.byScenario != nil {
			values[i] = p.byScenario[scenario]
		}
	}
	return values
}

// Targets returns the effective reference price by scenario, USD per unit; nil where
// it is the same in all.
func (d *Year) Targets(n position.National) []crop.Price {
	if targets, known := d.target.Known(n.Terms.Commodity); known {
		return targets
	}
	return d.makeTargets(n)
}

func (d *Year) makeTargets(n position.National) []crop.Price {
	return d.target.Of(n.Terms.Commodity, func() []crop.Price {
		past, ok := d.pastPrices(n)
		if !ok || !n.Terms.HasEffective {
			return nil
		}
		return d.eachScenario(func(i int) float64 { return n.Terms.TargetPrice(valuesIn(past, i)) })
	})
}

// BenchmarkPrices returns the benchmark price of ARC by scenario, USD per unit; nil
// where it is the same in all.
func (d *Year) BenchmarkPrices(n position.National) []crop.Price {
	if prices, known := d.benchmarkPrice.Known(n.Terms.Commodity); known {
		return prices
	}
	return d.makeBenchmarkPrices(n)
}

func (d *Year) makeBenchmarkPrices(n position.National) []crop.Price {
	return d.benchmarkPrice.Of(n.Terms.Commodity, func() []crop.Price {
		past, ok := d.pastPrices(n)
		if !ok {
			return nil
		}
		targets := d.Targets(n)
		return d.eachScenario(func(i int) float64 {
			floor := n.Target.Value
			if targets != nil {
				floor = targets[i]
			}
			return program.BenchmarkPrice(valuesIn(past, i), floor, n.Terms.BenchmarkDecimals)
		})
	})
}

// eachScenario makes a series scenario by scenario.
func (d *Year) eachScenario(at func(scenario int) float64) []float64 {
	dst := d.Acquire()
	for i := range dst {
		dst[i] = at(i)
	}
	return dst
}

// BenchmarkYields returns a county's benchmark yield by scenario, units per acre; nil
// where it is the same in all.
func (d *Year) BenchmarkYields(u position.Practice, decimals int) []crop.Yield {
	if u.Benchmark.Projected == nil || !u.Benchmark.Projected.Varies() {
		return nil
	}
	return d.benchmarkYield.Of(u.Unit, func() []crop.Yield {
		var five [5]pastFigure
		for i, past := range u.Benchmark.Projected.Yields {
			five[i].known = past.Value
			if past.Outlook != nil {
				five[i].byScenario = d.adjustedYields(u.Unit, past, decimals)
				defer d.Release(five[i].byScenario)
			}
		}
		return d.eachScenario(func(i int) float64 { return program.BenchmarkYield(valuesIn(five, i), decimals) })
	})
}

// adjustedYields returns one of the five adjusted yields by scenario, a series to release. A
// scenario has the same number in every crop year.
func (d *Year) adjustedYields(u position.CountyUnit, past position.AdjustedYield, decimals int) []crop.Yield {
	u.CropYear = past.CropYear
	year, err := d.Year(past.CropYear)
	if err != nil {
		return nil
	}
	drawn := year.Yields(decimals, position.Practice{Unit: u, Outlook: *past.Outlook})
	return d.eachScenario(func(i int) float64 {
		return program.AdjustedYield(drawn[i], past.Plug, past.Trend, past.CropYear, d.CropYear, decimals)
	})
}
