package answer

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// countyUnit is one county, commodity and practice in one crop year.
type countyUnit struct {
	county    string
	commodity crop.Commodity
	practice  farm.Practice
	cropYear  crop.CropYear
}

// benchmarkYield returns the benchmark yield of a county: from the first source
// that has the five adjusted yields of the program year, computed, or a
// published one. ok is false where none has either.
func (s sources) benchmarkYield(u countyUnit, decimals int) (b benchmark, ok bool) {
	for _, e := range s.Counties.Entries(u.county, u.commodity, u.practice) {
		if published, has := e.BenchmarkYield[u.cropYear]; has {
			return benchmark{Figure: farm.Figure{Value: published, Status: e.Source.Status, Source: e.Source.Name}, agency: e.Source.Agency}, true
		}
		if five, has := e.Adjusted[u.cropYear]; has {
			value := program.BenchmarkYield(five, decimals)
			return benchmark{Figure: farm.Figure{Value: value, Status: crop.ComputedFrom(e.Source.Status), Source: e.Source.Name + ", from its five adjusted yields"}, agency: e.Source.Agency, five: &five}, true
		}
	}
	return s.aheadBenchmark(u, decimals)
}

// YieldFigures is the yield for the JSON.
func YieldFigures(o yieldOutlook) *YieldView {
	return &YieldView{
		Mean: Dollars(o.Mean), SD: Dollars(o.SD), KnownFrom: string(o.stage), Status: o.status, Shape: string(o.Shape),
		Correlation: Chance(o.correlation), MeanFrom: o.meanFrom, SpreadFrom: o.spreadFrom,
	}
}

// benchmark is a county's benchmark yield.
type benchmark struct {
	farm.Figure
	agency bool           // from an agency table of the program year
	five   *[5]crop.Yield // the adjusted yields it was computed from; nil where it was published
	ahead  *ahead         // how it comes about where no source has it; nil: one has
}

// yieldOutlook is what is known of the county yield of a crop year.
type yieldOutlook struct {
	odds.Yield
	stage       odds.Stage
	status      crop.Status
	meanFrom    string
	spreadFrom  string
	correlation float64   // with the price of the commodity
	past        []float64 // off the trend in past years, by place of odds.PastYears; nil: not from history
	refused     *refused  // a mean that was not taken; nil: none
}

// outlook is outlookOf, and where past years are drawn again, how far the county
// was off in each; missing says which yields that lacks.
func (s sources) outlook(u countyUnit, benchmark benchmark) (o yieldOutlook, ok bool, missing string) {
	o, ok = outlookOf(s.Counties, u, benchmark, s.correlationOf(u))
	if !s.PastYears || !ok || o.SD == 0 {
		return o, ok, ""
	}
	series, _ := seriesOf(s.Counties, u)
	if o.past, ok = odds.PastDeviations(series.years, series.yields); !ok {
		years := odds.PastYears()
		return o, false, fmt.Sprintf("the %s yields of county %s of all years from %d to %d, which past years drawn again need", u.commodity.Name(), u.county, years[0], years[len(years)-1])
	}
	o.Shape, o.correlation = odds.ShapeNormal, 0
	o.spreadFrom += "; off its trend as in past years"
	return o, true, ""
}

// knownYield returns the actual county yield where a source has it.
func knownYield(book farm.CountyBook, u countyUnit) (farm.Figure, bool) {
	for _, e := range book.Entries(u.county, u.commodity, u.practice) {
		if actual, has := e.Actual[u.cropYear]; has {
			return farm.Figure{Value: actual, Status: e.Source.Status, Source: e.Source.Name}, true
		}
	}
	return farm.Figure{}, false
}

// outlookOf returns the yield outlook of a county in the order of design: an
// actual yield, the file's outlook, an agency's estimate of the year, then the
// order of countyMean. ok is false where there is nothing.
func outlookOf(book farm.CountyBook, u countyUnit, benchmark benchmark, correlation func(odds.Stage) float64) (yieldOutlook, bool) {
	if actual, known := knownYield(book, u); known {
		return yieldOutlook{Yield: odds.Yield{Mean: actual.Value}, stage: odds.Final, status: actual.Status,
			meanFrom: "actual yield, " + actual.Source, spreadFrom: "known"}, true
	}
	entries := book.Entries(u.county, u.commodity, u.practice)
	told, toldBy := toldOutlook(entries, u.cropYear)
	var spread, level longSeries
	if told.Yield == nil || told.SD == nil {
		spread, level = seriesOf(book, u)
	}
	if toldBy == "" {
		told, toldBy = estimated(book, u)
	}
	var notTaken *refused
	mean, ok := farm.Figure{Status: crop.Assumed, Source: "outlook of " + toldBy}, true
	if told.Yield != nil {
		mean.Value = *told.Yield
	} else if mean, notTaken, ok = countyMean(entries, spread, level, u, benchmark); !ok {
		return yieldOutlook{}, false
	}
	stage := odds.BeforeHarvest
	if told.KnownFrom != "" {
		stage = odds.Stage(told.KnownFrom)
	}
	o := yieldOutlook{stage: stage, status: mean.Status, meanFrom: mean.Source, correlation: correlation(stage), refused: notTaken}
	o.Mean = mean.Value
	o.Shape = odds.DefaultShape(u.commodity, stage)
	if told.Shape != "" {
		o.Shape = odds.Shape(told.Shape)
	}
	if told.SD != nil {
		o.SD, o.spreadFrom = *told.SD, "given by "+toldBy
		return o, true
	}
	cv, rule, _ := odds.CountyCV(u.commodity, stateOf(u.county), spread.years, spread.yields, spread.harvested)
	o.SD = odds.Spread(u.commodity, stage, cv) * o.Mean
	o.spreadFrom = fmt.Sprintf("%.1f percent of the mean, %s", 100*odds.Spread(u.commodity, stage, cv), rule)
	return o, true
}

// toldOutlook returns the first outlook a source states for the crop year.
func toldOutlook(entries []farm.Entry, y crop.CropYear) (farm.YieldOutlook, string) {
	for _, e := range entries {
		if told, has := e.Outlook[y]; has {
			return told, e.Source.Name
		}
	}
	return farm.YieldOutlook{}, ""
}
