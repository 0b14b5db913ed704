package fit

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Fewest yields of a county, and fewest counties of a State, that count. Judgements.
const fewestYields, fewestCounties = 6, 20

// CountySpreads returns the medians of how county yields vary, for each commodity by State
// and for the nation, from FSA's yields of the years that are not left out: the standard
// deviation of a county's yields about the trend of its State, less one.
//
// The trend of a State is the median of its counties' robust slopes, relative to their own
// medians: eight years give no county a slope of its own. FSA's change of source in 2019
// stands in the deviations and widens them; SpreadShare takes the level of all out again.
func CountySpreads(rows []farm.PastRow, leave func(crop.CropYear) bool) []Estimate {
	type place struct {
		commodity crop.Commodity
		state     string
	}
	series := map[farm.PastUnit]map[crop.CropYear]crop.Yield{}
	first, last := math.MaxInt, 0
	for _, r := range rows {
		if leave(r.CropYear) || r.ActualYield <= 0 || !odds.SpreadMeasured(r.Commodity) {
			continue
		}
		if series[r.PastUnit] == nil {
			series[r.PastUnit] = map[crop.CropYear]crop.Yield{}
		}
		series[r.PastUnit][r.CropYear] = r.ActualYield
		first, last = min(first, r.CropYear), max(last, r.CropYear)
	}
	units := map[place][]farm.PastUnit{}
	for u, yields := range series {
		if len(yields) >= fewestYields {
			at := place{u.Commodity, u.County[:2]}
			units[at] = append(units[at], u)
		}
	}
	nation := map[crop.Commodity][]float64{}
	period := fmt.Sprintf("%d-%d", first, last)
	var all []Estimate
	for _, at := range slices.SortedFunc(maps.Keys(units), func(a, b place) int {
		return cmp.Or(cmp.Compare(a.commodity, b.commodity), cmp.Compare(a.state, b.state))
	}) {
		slope := stateSlope(units[at], series)
		var spreads []float64
		for _, u := range units[at] {
			spreads = append(spreads, spreadAbout(slope, series[u]))
		}
		nation[at.commodity] = append(nation[at.commodity], spreads...)
		if name := crop.StateNames[at.state]; name != "" && len(spreads) >= fewestCounties {
			all = append(all, Estimate{Param: "county_yield_cv_median", Commodity: string(at.commodity), Region: name, Key: "annual",
				Value: rounded(odds.Median(spreads), 4), Count: len(spreads), Period: period, Source: "FSA-county"})
		}
	}
	for _, c := range slices.Sorted(maps.Keys(nation)) {
		all = append(all, Estimate{Param: "county_yield_cv_quantile", Commodity: string(c), Region: "US", Key: "q50",
			Value: rounded(odds.Median(nation[c]), 4), Count: len(nation[c]), Period: period, Source: "FSA-county",
			Note: "about the trend of the State; FSA changed its source in 2019, which widens the spread"})
	}
	return all
}

// stateSlope returns the median relative slope of some counties' yields, per year.
func stateSlope(units []farm.PastUnit, series map[farm.PastUnit]map[crop.CropYear]crop.Yield) float64 {
	var slopes []float64
	for _, u := range units {
		years := slices.Sorted(maps.Keys(series[u]))
		yields := make([]crop.Yield, len(years))
		for i, y := range years {
			yields[i] = series[u][y]
		}
		slopes = append(slopes, odds.RelativeSlope(years, yields))
	}
	return odds.Median(slopes)
}

// spreadAbout returns the standard deviation of yields over a line through their mean with
// a relative slope, less one; the line is the State's, so n-1 stands in the denominator.
func spreadAbout(slope float64, yields map[crop.CropYear]crop.Yield) float64 {
	n, meanYear, mean := float64(len(yields)), 0.0, 0.0
	years := slices.Sorted(maps.Keys(yields))
	for _, y := range years {
		meanYear += float64(y) / n
	}
	level := make([]float64, len(years))
	for i, y := range years {
		level[i] = yields[y] / (1 + slope*(float64(y)-meanYear))
		mean += level[i] / n
	}
	sum := 0.0
	for _, x := range level {
		sum += (x/mean - 1) * (x/mean - 1)
	}
	return math.Sqrt(sum / (n - 1))
}
