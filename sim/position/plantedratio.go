package position

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// plantedPerHarvested returns by what NASS's yields per harvested acre are multiplied: the
// county's own ratio, else the median of those of the counties of its State, else
// 0: not known, and not taken for 1.
func plantedPerHarvested(book farm.CountyBook, u CountyUnit, harvested map[crop.CropYear]crop.Yield) (ratio float64, how string) {
	if own, how := countyPlantedPerHarvested(book, u, harvested); own > 0 {
		return own, how
	}
	var ratios []float64
	for _, code := range book.Codes(StateOf(u.County)) {
		other := u
		other.County = code
		for _, e := range EntriesWithSubstitutes(book, other) {
			if r, _ := countyPlantedPerHarvested(book, other, e.Harvested); r > 0 {
				ratios = append(ratios, r)
				break
			}
		}
	}
	if len(ratios) > 0 {
		return odds.Median(ratios), fmt.Sprintf("per planted over per harvested acre, median of %d counties of the State", len(ratios))
	}
	return 0, "per harvested acre: no ratio to planted acres is known"
}

// countyPlantedPerHarvested returns a county's own ratio: the median of three years or more that
// both have, else by its benchmark yield; 0 where neither can be measured.
func countyPlantedPerHarvested(book farm.CountyBook, u CountyUnit, harvested map[crop.CropYear]crop.Yield) (ratio float64, how string) {
	if len(harvested) == 0 {
		return 0, ""
	}
	level, _ := plantedAcreYields(book, u)
	if own, n := odds.MedianRatio(level, harvested); n >= odds.YearsForRatio {
		return own, fmt.Sprintf("per planted over per harvested acre, %d years of this county", n)
	}
	own, y := benchmarkPerHarvested(book, u, harvested)
	if own == 0 {
		return 0, "per harvested acre: no ratio to planted acres is known"
	}
	return own, fmt.Sprintf("per planted over per harvested acre, by the benchmark yield of %d", y)
}

// benchmarkPerHarvested returns the newest benchmark yield of a county, up to the unit's
// crop year, over what the rule of that year makes of NASS's yields of the same
// five years: their Olympic average, carried forward by their own robust trend
// where the rule adjusts yields by one. 0 where none has all five.
func benchmarkPerHarvested(book farm.CountyBook, u CountyUnit, harvested map[crop.CropYear]crop.Yield) (ratio float64, programYear crop.CropYear) {
	for y := u.CropYear; y > u.CropYear-mostYearsProjected; y-- {
		published, has := publishedBenchmark(book, u, y)
		if !has {
			continue
		}
		if made := benchmarkFromSeries(harvested, u.Commodity, y); made > 0 {
			return published / made, y
		}
	}
	return 0, 0
}

// benchmarkFromSeries is what the rule of a program year makes of a series of yields, not
// rounded; 0 where the series lacks one of the five.
func benchmarkFromSeries(series map[crop.CropYear]crop.Yield, c crop.Commodity, y crop.CropYear) crop.Yield {
	terms, err := program.TermsFor(c, y)
	if err != nil {
		return 0
	}
	var five [5]crop.Yield
	for i, at := range terms.BenchmarkYears() {
		if five[i] = series[at]; five[i] <= 0 {
			return 0
		}
	}
	if terms.HasEffective { // yields are adjusted by a trend from the same year on
		slope := odds.Slope(sortedSeries(series))
		for i, at := range terms.BenchmarkYears() {
			five[i] += slope * float64(y-at)
		}
	}
	return program.OlympicAverage(five)
}
