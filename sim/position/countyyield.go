package position

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
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
	o, ok = CountyYieldOutlook(s.Counties, u, benchmark, s.PriceYieldCorrelation(u))
	if !s.PastYears || !ok || o.SD == 0 {
		return o, ok, ""
	}
	series, _ := LongestYieldSeries(s.Counties, u)
	if o.PastDeviations, ok = odds.PastDeviations(series.Years, series.Yields); !ok {
		years := odds.PastYears()
		return o, false, fmt.Sprintf("the %s yields of county %s of all years from %d to %d, which past years drawn again need", u.Commodity.Name(), u.County, years[0], years[len(years)-1])
	}
	o.Shape, o.Correlation = odds.ShapeNormal, 0
	o.SDFrom += "; off its trend as in past years"
	return o, true, ""
}

// CountyYieldOutlook returns the outlook for a county yield from the first of these:
// an actual yield, the county file's outlook, an agency's estimate of the year, then
// countyMean. correlation is that with the price of the commodity, by stage. ok is
// false where there is nothing to go by.
func CountyYieldOutlook(book farm.CountyBook, u CountyUnit, benchmark Benchmark, correlation func(odds.Stage) float64) (o Yield, ok bool) {
	if actual, known := KnownYield(book, u); known {
		return Yield{Yield: odds.Yield{Mean: actual.Value}, Stage: odds.Final, Status: actual.Status,
			MeanFrom: "actual yield, " + actual.Source, SDFrom: "known"}, true
	}
	entries := book.Entries(u.County, u.Commodity, u.Practice)
	stated, statedBy := statedOutlook(entries, u.CropYear)
	var forSD, forMean YieldSeries
	if stated.Yield == nil || stated.SD == nil {
		forSD, forMean = LongestYieldSeries(book, u)
	}
	if statedBy == "" {
		stated, statedBy = agencyEstimate(book, u)
	}
	var rejected *RejectedMean
	mean := farm.Figure{Status: crop.Assumed, Source: "outlook of " + statedBy}
	if stated.Yield != nil {
		mean.Value = *stated.Yield
	} else if mean, rejected, ok = countyMean(entries, forSD, forMean, u, benchmark); !ok {
		return Yield{}, false
	}
	stage := odds.BeforeHarvest
	if stated.KnownFrom != "" {
		stage = odds.Stage(stated.KnownFrom)
	}
	o = Yield{Stage: stage, Status: mean.Status, MeanFrom: mean.Source, Correlation: correlation(stage), Rejected: rejected}
	o.Mean = mean.Value
	o.Shape = odds.DefaultShape(u.Commodity, stage)
	if stated.Shape != "" {
		o.Shape = odds.Shape(stated.Shape)
	}
	if stated.SD != nil {
		o.SD, o.SDFrom = *stated.SD, "given by "+statedBy
		return o, true
	}
	cv, rule, _ := odds.CountyCV(u.Commodity, StateOf(u.County), forSD.Years, forSD.Yields, forSD.PerHarvestedAcre)
	o.SD = odds.CVAtStage(u.Commodity, stage, cv) * o.Mean
	o.SDFrom = fmt.Sprintf("%.1f percent of the mean, %s", 100*odds.CVAtStage(u.Commodity, stage, cv), rule)
	return o, true
}
