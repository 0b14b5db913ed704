package backtest

import (
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/fit"
	"fencerow/sim/odds"
)

// constantsWithout derives the numbers of the model anew from the other crop years: the
// spreads of county yields, their share at a stage, the weight of the trend in the mean, and
// the errors of WASDE's prices. Years held back (fit.HeldBack) and the one asked about, 0
// for none, are left out. The constants asked about a year thus know nothing of it.
func (s Setup) constantsWithout(asked crop.CropYear, years []*commodityYear) (*odds.Constants, []fit.Estimate) {
	leave := func(y crop.CropYear) bool { return y == asked || fit.HeldBack(y) }
	others := slices.DeleteFunc(slices.Clone(years), func(c *commodityYear) bool { return leave(c.CropYear) })
	k := &odds.Constants{}
	var all []fit.Estimate
	take := func(estimates ...fit.Estimate) {
		for _, e := range estimates {
			k.Replace(e.Param, e.Commodity, e.Region, e.Key, e.Value)
		}
		all = append(all, estimates...)
	}
	take(s.forecastErrors(leave)...)
	if len(others) == 0 {
		return k, all
	}
	take(fit.CountySpreads(s.Past.Rows, leave)...)
	if came := expectedOf(others); len(came) > 0 {
		take(fit.MeanWeight(came))
	}
	for _, c := range crop.Commodities() {
		before, after := s.deviations(k, c, others)
		if len(before) > 0 {
			take(fit.SpreadShare(c, odds.BeforeHarvest, before), fit.SpreadShare(c, odds.StateReport, after))
		}
	}
	return k, all
}

// expectedOf returns trend, benchmark and outcome of the rows whose trend is in line with a
// benchmark that is adjusted by a trend.
func expectedOf(years []*commodityYear) []fit.Expected {
	var came []fit.Expected
	for _, c := range years {
		total := 0.0
		for _, w := range c.weights {
			total += w
		}
		for i, r := range c.rows {
			trend, has := c.bases[i].Trend()
			if has && r.Adjusted != nil && r.BenchmarkYield > 0 && odds.InLine(trend, r.BenchmarkYield) {
				came = append(came, fit.Expected{CropYear: r.CropYear, Weight: c.weights[i] / total, Trend: trend, Benchmark: r.BenchmarkYield, Actual: r.ActualYield})
			}
		}
	}
	return came
}

// deviations returns how the yields of a commodity came out against their means, before
// harvest and after the State's report.
func (s Setup) deviations(k *odds.Constants, c crop.Commodity, years []*commodityYear) (before, after []fit.Deviation) {
	for _, year := range years {
		if year.Commodity != c {
			continue
		}
		outlooks := year.outlooks(s, k)
		reported := year.reported(k, outlooks)
		for i, r := range year.rows {
			cv, _ := year.bases[i].CV(k)
			d := fit.Deviation{CropYear: r.CropYear, Weight: year.weights[i], CV: cv}
			if d.Ratio = r.ActualYield / outlooks[i].Mean; math.IsNaN(d.Ratio) || math.IsInf(d.Ratio, 0) {
				continue
			}
			before = append(before, d)
			d.Ratio = r.ActualYield / reported[i].Mean
			after = append(after, d)
		}
	}
	return before, after
}

// forecastErrors derives the errors of WASDE's prices of May and November from the rows of
// the model without the years left out.
func (s Setup) forecastErrors(leave func(crop.CropYear) bool) []fit.Estimate {
	var all []fit.Estimate
	for _, c := range crop.Commodities() {
		for _, k := range []Knowledge{May, November} {
			key := k.month().String()[:3]
			sd, n, has := odds.ForecastError(c, key)
			if !has {
				continue
			}
			errors := map[crop.CropYear]float64{}
			for _, f := range s.Past.Forecasts {
				if came, known := s.Market.MYA[c][f.CropYear]; known && usable(f, c, k) {
					errors[f.CropYear] = math.Log(came.Value / f.Price)
				}
			}
			if len(errors) == 0 {
				continue
			}
			all = append(all, fit.Estimate{Param: "sd_ln_final_over_wasde", Commodity: string(c), Region: "US", Key: key,
				Value: fit.ForecastError(sd, n, errors, leave), Count: n})
		}
	}
	return all
}

// usable reports whether a forecast is of a commodity's crop year at a state of knowledge.
func usable(f farm.Forecast, c crop.Commodity, k Knowledge) bool {
	return f.Commodity == c && f.Date.Year() == f.CropYear && f.Date.Month() == k.month()
}
