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
	if s.candidate.usualConstants {
		return odds.Usual, nil
	}
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
	take(s.forecastErrors(asked, years)...)
	if len(others) == 0 {
		return k, all
	}
	take(fit.CountySpreads(s.Past.Rows, leave)...)
	if came := expectedOf(others); len(came) > 0 {
		take(fit.MeanWeight(came))
	}
	if s.candidate.weight != nil {
		k.Replace("county_mean_weight", "all", "US", "of the trend", *s.candidate.weight)
	}
	var reported []fit.Estimate
	for _, c := range crop.Commodities() {
		before, after := s.deviations(k, c, others)
		if len(before) > 0 {
			reported = append(reported, fit.SpreadShare(c, odds.StateReport, after))
			take(fit.SpreadShare(c, odds.BeforeHarvest, before), reported[len(reported)-1])
		}
	}
	take(fit.OtherSpreadShare(odds.BeforeHarvest, nil), fit.OtherSpreadShare(odds.StateReport, reported))
	return k, all
}

// Derived returns the numbers of the model that the tables give, crop years held back
// (fit.HeldBack) left out: spreads of county yields and the weight of the trend in the mean,
// as rows of sim/odds/parameters.csv are to be.
func Derived(past farm.Past, market farm.Market) []fit.Estimate {
	s := Setup{Past: past, Market: market}
	_, all := s.constantsWithout(0, s.prepare())
	return slices.DeleteFunc(all, func(e fit.Estimate) bool { return e.Param == "sd_ln_final_over_wasde" })
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
		reported := year.reported(k, outlooks, s.candidate.nation)
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
// the model, in which the years held back have no part, without the one of the year asked
// about.
func (s Setup) forecastErrors(asked crop.CropYear, years []*commodityYear) []fit.Estimate {
	var all []fit.Estimate
	for _, c := range crop.Commodities() {
		for _, k := range []Knowledge{May, November} {
			key := k.month().String()[:3]
			sd, n, has := odds.ForecastError(c, key)
			errors := map[crop.CropYear]float64{}
			for _, year := range years {
				if f, known := s.forecast(k, c, year.CropYear, year.CropYear); known && year.Commodity == c && !fit.HeldBack(year.CropYear) {
					errors[year.CropYear] = math.Log(year.rows[0].MYA / f.Price)
				}
			}
			if has && len(errors) > 0 {
				all = append(all, fit.Estimate{Param: "sd_ln_final_over_wasde", Commodity: string(c), Region: "US", Key: key,
					Value: fit.ForecastErrorWithout(sd, n, errors, asked)})
			}
		}
	}
	return all
}
