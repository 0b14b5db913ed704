package position

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
	"fencerow/sim/parallel"
)

// BenchmarkYield returns the benchmark yield of a county, units per acre: that of the
// first source which has it, or the five adjusted yields to compute it from; else a
// projected one (ProjectedBenchmark). ok is false where none can be made.
func (s Sources) BenchmarkYield(u CountyUnit, decimals int) (b Benchmark, ok bool) {
	for _, e := range s.Counties.Entries(u.County, u.Commodity, u.Practice) {
		if published, has := e.BenchmarkYield[u.CropYear]; has {
			return Benchmark{Figure: farm.Figure{Value: published, Status: e.Source.Status, Source: e.Source.Name}, Agency: e.Source.Agency}, true
		}
		if five, has := e.Adjusted[u.CropYear]; has {
			value := program.BenchmarkYield(five, decimals)
			return Benchmark{Figure: farm.Figure{Value: value, Status: crop.ComputedFrom(e.Source.Status), Source: e.Source.Name + ", from its five adjusted yields"}, Agency: e.Source.Agency, Five: &five}, true
		}
	}
	return s.projectBenchmark(u, decimals)
}

// Yield returns CountyYieldOutlook; where past years are drawn again, also how far the
// yield was off its trend in each of them. missing names the yields which that lacks,
// "" for none; ok is then false.
func (s Sources) Yield(u CountyUnit, benchmark Benchmark) (o Yield, ok bool, missing string) {
	o, ok = s.CountyYieldOutlook(u, benchmark)
	if !s.PastYears || !ok || o.SD == 0 {
		return o, ok, ""
	}
	series, _ := LongestYieldSeries(s.Counties, u)
	if o.PastDeviations, ok = odds.PastDeviations(series.Years, series.Yields); !ok {
		years := odds.PastYears()
		return o, false, fmt.Sprintf("the %s yields of %s in every year from %d to %d, which a replay of past years needs", u.Commodity.Name(), s.Counties.Called(u.County), years[0], years[len(years)-1])
	}
	o.Shape, o.Correlation = odds.ShapeNormal, 0
	o.SDFrom += ", off its trend as in past years"
	return o, true, ""
}

// CountyYieldOutlook returns the outlook for a county yield: an actual yield, else that of
// its YieldBasis. ok is false where there is nothing to go by.
func (s Sources) CountyYieldOutlook(u CountyUnit, benchmark Benchmark) (o Yield, ok bool) {
	if actual, known := KnownYield(s.Counties, u); known {
		return Yield{Yield: odds.Yield{Mean: actual.Value}, Stage: odds.Final, Status: actual.Status,
			MeanFrom: "actual yield, " + actual.Source, SDFrom: "known"}, true
	}
	basis := newYieldBasis(s.Counties, u, s.Facts)
	if o, ok = basis.Outlook(s.Constants, benchmark); ok {
		o.Correlation = s.PriceYieldCorrelation(u)(o.Stage)
	}
	return o, ok
}

// YieldBasis is what the outlook for a county yield rests on before any number of the
// model and the benchmark enter: what is stated of it, and the county's past yields.
type YieldBasis struct {
	Unit       CountyUnit
	stated     farm.YieldOutlook // of the county file, else an agency's estimate of the year
	statedBy   string            // "": nothing is stated
	five       *[5]crop.Yield    // the adjusted yields of the program year that a source has; nil: none does
	fiveFrom   string            // its name
	trend      *farm.Figure      // of the series that gives the mean; nil: none does
	newest     *farm.Figure      // the mean of its newest yields; nil: none gives it
	whyNoTrend string            // the end of a sentence; "" where it needs no reason
	ownSpread  odds.OwnSpread
}

// YieldBases looks up what there is of many county yields that are not known yet, on all
// cores. What the counties of a State share is worked out once.
func YieldBases(book farm.CountyBook, units []CountyUnit) []YieldBasis {
	of, bases := &Facts{}, make([]YieldBasis, len(units))
	parallel.Do(len(units), func(i int) { bases[i] = newYieldBasis(book, units[i], of) })
	return bases
}

// newYieldBasis looks up what there is of a county yield that is not known yet.
func newYieldBasis(book farm.CountyBook, u CountyUnit, of *Facts) YieldBasis {
	b, entries := YieldBasis{Unit: u}, book.Entries(u.County, u.Commodity, u.Practice)
	b.stated, b.statedBy = statedOutlook(entries, u.CropYear)
	for _, e := range entries {
		if five, has := e.Adjusted[u.CropYear]; has {
			b.five, b.fiveFrom = &five, e.Source.Name
			break
		}
	}
	if b.stated.Yield == nil || b.stated.SD == nil {
		forSD, forMean := longestYieldSeries(book, u, of)
		b.ownSpread = forSD.Spread()
		b.newest = newestMean(forMean)
		if n := len(forMean.Years); n > 0 {
			b.trend = &farm.Figure{Value: forMean.Trend(u.CropYear), Status: crop.Projected,
				Source: fmt.Sprintf("trend of %d county yields, %d to %d%s", n, forMean.Years[0], forMean.Years[n-1], forMean.remark)}
		} else {
			b.whyNoTrend = forSD.whyNoMean(u.CropYear)
		}
	}
	if b.statedBy == "" {
		b.stated, b.statedBy = agencyEstimate(book, u, of)
	}
	return b
}

// Trend returns the trend of the county's past yields, units per acre; ok is false where
// no series gives the mean.
func (b YieldBasis) Trend() (trend crop.Yield, ok bool) {
	if b.trend == nil {
		return 0, false
	}
	return b.trend.Value, true
}

// Outlook returns the outlook, without its correlation with the price: the yield stated,
// else countyMean. ok is false where there is nothing to go by.
func (b YieldBasis) Outlook(k *odds.Constants, benchmark Benchmark) (o Yield, ok bool) {
	mean := farm.Figure{Status: crop.Assumed, Source: "outlook of " + b.statedBy}
	if b.stated.Yield != nil {
		mean.Value = *b.stated.Yield
	} else if mean, o.Rejected, ok = b.countyMean(k, benchmark); !ok {
		return Yield{}, false
	}
	if b.stated.Yield == nil {
		o.Estimates = b.estimates(benchmark)
	}
	o.Stage = odds.BeforeHarvest
	if b.stated.KnownFrom != "" {
		o.Stage = odds.Stage(b.stated.KnownFrom)
	}
	o.Mean, o.Status, o.MeanFrom = mean.Value, mean.Status, mean.Source
	o.Shape = odds.DefaultShape(b.Unit.Commodity, o.Stage)
	if b.stated.Shape != "" {
		o.Shape = odds.Shape(b.stated.Shape)
	}
	if b.stated.SD != nil {
		o.SD, o.SDFrom = *b.stated.SD, "given by "+b.statedBy
		return o, true
	}
	cv, rule := b.CV(k)
	share := k.CVAtStage(b.Unit.Commodity, o.Stage, cv)
	o.SD, o.SDFrom = share*o.Mean, fmt.Sprintf("%.1f percent of it, by %s", 100*share, rule)
	return o, true
}

// CV returns the coefficient of variation of the county yield before harvest, and in words
// the rule that gave it.
func (b YieldBasis) CV(k *odds.Constants) (cv float64, rule string) {
	cv, rule, _ = k.CountyCV(b.Unit.Commodity, StateOf(b.Unit.County), b.ownSpread)
	return cv, rule
}
