package position

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// BenchmarkYield returns the benchmark yield of a county: from the first source
// that has the five adjusted yields of the program year, computed, or a
// published one. ok is false where none has either.
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

// Yield is outlookOf, and where past years are drawn again, how far the county
// was off in each; missing says which yields that lacks.
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

// CountyYieldOutlook returns the yield outlook of a county in the order of design: an
// actual yield, the file's outlook, an agency's estimate of the year, then the
// order of countyMean. ok is false where there is nothing.
func CountyYieldOutlook(book farm.CountyBook, u CountyUnit, benchmark Benchmark, correlation func(odds.Stage) float64) (Yield, bool) {
	if actual, known := KnownYield(book, u); known {
		return Yield{Yield: odds.Yield{Mean: actual.Value}, Stage: odds.Final, Status: actual.Status,
			MeanFrom: "actual yield, " + actual.Source, SDFrom: "known"}, true
	}
	entries := book.Entries(u.County, u.Commodity, u.Practice)
	told, toldBy := statedOutlook(entries, u.CropYear)
	var spread, level YieldSeries
	if told.Yield == nil || told.SD == nil {
		spread, level = LongestYieldSeries(book, u)
	}
	if toldBy == "" {
		told, toldBy = agencyEstimate(book, u)
	}
	var notTaken *RejectedMean
	mean, ok := farm.Figure{Status: crop.Assumed, Source: "outlook of " + toldBy}, true
	if told.Yield != nil {
		mean.Value = *told.Yield
	} else if mean, notTaken, ok = countyMean(entries, spread, level, u, benchmark); !ok {
		return Yield{}, false
	}
	stage := odds.BeforeHarvest
	if told.KnownFrom != "" {
		stage = odds.Stage(told.KnownFrom)
	}
	o := Yield{Stage: stage, Status: mean.Status, MeanFrom: mean.Source, Correlation: correlation(stage), Rejected: notTaken}
	o.Mean = mean.Value
	o.Shape = odds.DefaultShape(u.Commodity, stage)
	if told.Shape != "" {
		o.Shape = odds.Shape(told.Shape)
	}
	if told.SD != nil {
		o.SD, o.SDFrom = *told.SD, "given by "+toldBy
		return o, true
	}
	cv, rule, _ := odds.CountyCV(u.Commodity, StateOf(u.County), spread.Years, spread.Yields, spread.PerHarvestedAcre)
	o.SD = odds.CVAtStage(u.Commodity, stage, cv) * o.Mean
	o.SDFrom = fmt.Sprintf("%.1f percent of the mean, %s", 100*odds.CVAtStage(u.Commodity, stage, cv), rule)
	return o, true
}
