package county

import (
	"fmt"

	"fencerow/io/read/document"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// yields reads one yield of a series for each crop year.
func (r *reader) yields(v document.Node, what string, c crop.Commodity, series farm.CountySeries) map[crop.CropYear]crop.Yield {
	return document.ByCropYear(r.Reader, v, what, series.Years(), func(v document.Node, what string, year crop.CropYear) (crop.Yield, bool) {
		if !r.Check(v, series.CheckYear(what, c, year)) {
			return 0, false
		}
		return r.yield(v, what, c, series)
	})
}

func (r *reader) yield(v document.Node, what string, c crop.Commodity, series farm.CountySeries) (crop.Yield, bool) {
	yield, ok := r.Number(v, what)
	return yield, ok && r.Check(v, series.CheckYield(what, c, yield))
}

// benchmarkYields is how many yields the law averages, after dropping the
// highest and the lowest.
const benchmarkYields = 5

func (r *reader) adjusted(v document.Node, what string, c crop.Commodity) map[crop.CropYear][benchmarkYields]crop.Yield {
	return document.ByCropYear(r.Reader, v, what, farm.BenchmarkYields.Years(), func(v document.Node, what string, year crop.CropYear) (five [benchmarkYields]crop.Yield, ok bool) {
		if !r.Check(v, farm.BenchmarkYields.CheckYear(what, c, year)) {
			return five, false
		}
		if v.Kind != document.List || len(v.Items) != benchmarkYields {
			reason := fmt.Sprintf("%s is no list of %d yields", what, benchmarkYields)
			if v.Kind == document.List {
				reason = fmt.Sprintf("%s has %d yields, not %d", what, len(v.Items), benchmarkYields)
			}
			r.Refuse(v, reason, "write the five yields of the program year, oldest first: [184.20, 187.00, 193.10, 178.43, 190.70]")
			return five, false
		}
		ok = true
		for i, item := range v.Items {
			yield, right := r.yield(item, what, c, farm.BenchmarkYields)
			five[i], ok = yield, ok && right
		}
		return five, ok
	})
}

// mostTrend is the steepest trend, as a part of the highest plausible yield a
// year: a judgement.
const mostTrend = 0.1

func (r *reader) trend(v document.Node, what string, c crop.Commodity) map[crop.CropYear]crop.Yield {
	_, most := farm.YieldBounds(c, farm.Usual)
	return document.ByCropYear(r.Reader, v, what, farm.ProgramYears(), func(v document.Node, what string, _ crop.CropYear) (crop.Yield, bool) {
		trend, ok := r.Number(v, what)
		if ok && (trend > mostTrend*most || trend < -mostTrend*most) {
			r.Refuse(v, fmt.Sprintf("%s is %s", what, v.Text), fmt.Sprintf("a trend is the change in %s from one crop year to the next", c.Unit().Yield()))
			return 0, false
		}
		return trend, ok
	})
}

// stage is a stage of knowledge of a yield that is not final.
type stage string

// shape is the form of what the yield may still be.
type shape string

var (
	stages = []stage{"before_harvest", "state_report", "local_harvest", "county_estimate", "insurance_yield", "final"}
	shapes = []shape{"weibull", "normal", "t", "lognormal"}
)

func (r *reader) outlook(v document.Node, what string, c crop.Commodity) map[crop.CropYear]farm.YieldOutlook {
	return document.ByCropYear(r.Reader, v, what, farm.ProgramYears(), func(v document.Node, what string, year crop.CropYear) (farm.YieldOutlook, bool) {
		o := farm.YieldOutlook{}
		if !r.Check(v, farm.CheckCovered(c, year)) {
			return o, false
		}
		r.Fields(v, what,
			document.May("yield", func(v document.Node) {
				if yield, ok := r.yield(v, "yield of "+what, c, farm.HarvestYields); ok {
					o.Yield = &yield
				}
			}),
			document.May("known_from", func(v document.Node) {
				word, _ := document.Word(r.Reader, v, "known_from of "+what, stages...)
				o.KnownFrom = string(word)
			}),
			document.May("sd", func(v document.Node) { o.SD = r.standardDeviation(v, "sd of "+what, c) }),
			document.May("shape", func(v document.Node) {
				word, _ := document.Word(r.Reader, v, "shape of "+what, shapes...)
				o.Shape = string(word)
			}))
		if o.Yield != nil && *o.Yield == 0 && (o.SD == nil || *o.SD != 0) {
			r.Refuse(v.Get("yield"), "yield of "+what+" is 0 and not known for certain", "write sd: 0 if nothing was harvested, else a yield above 0")
		}
		return o, true
	})
}

// standardDeviation reads a standard deviation in units per acre; 0 means known.
func (r *reader) standardDeviation(v document.Node, what string, c crop.Commodity) *crop.Yield {
	_, most := farm.YieldBounds(c, farm.Usual)
	sd, ok := r.Number(v, what)
	if !ok {
		return nil
	}
	if sd < 0 || sd > most {
		r.Refuse(v, fmt.Sprintf("%s is %s", what, v.Text), fmt.Sprintf("write it in %s, 0 where the yield is known", c.Unit().Yield()))
		return nil
	}
	return &sd
}
