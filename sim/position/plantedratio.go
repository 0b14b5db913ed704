package position

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// plantedPerHarvested returns the ratio by which NASS's yields per harvested acre are
// multiplied to become yields per planted acre, and in words where it comes from: the
// county's own, else the median of its State's counties. 0 means not known, and must
// not be read as 1.
func plantedPerHarvested(book farm.CountyBook, u CountyUnit, harvested map[crop.CropYear]crop.Yield, of *Facts) (ratio float64, how string) {
	if own, how := countyPlantedPerHarvested(book, u, harvested); own > 0 {
		return own, how
	}
	if ratio, counties := of.ratio(book, u); counties > 0 {
		return ratio, fmt.Sprintf("per planted over per harvested acre, median of %d counties of the State", counties)
	}
	return 0, "per harvested acre: no ratio to planted acres is known"
}

// statePlantedPerHarvested returns the median of the ratios of the counties of the unit's
// State that have one, and how many those are.
func statePlantedPerHarvested(book farm.CountyBook, u CountyUnit, of *Facts) (ratio float64, counties int) {
	var ratios []float64
	for _, code := range of.codesOf(book, StateOf(u.County)) {
		other := u
		other.County = code
		for _, e := range EntriesWithSubstitutes(book, other) {
			if r, _ := countyPlantedPerHarvested(book, other, e.Harvested); r > 0 {
				ratios = append(ratios, r)
				break
			}
		}
	}
	return odds.Median(ratios), len(ratios)
}

// countyPlantedPerHarvested returns a county's own ratio: the median over the years
// that both series have, at least odds.YearsForRatio, else benchmarkPerHarvested; 0
// where neither can be measured.
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

// benchmarkPerHarvested returns the ratio of the newest benchmark yield up to the
// unit's crop year to the benchmark that NASS's yields of the same five years would
// give under the rule of that year. 0 where no year has all five.
func benchmarkPerHarvested(book farm.CountyBook, u CountyUnit, harvested map[crop.CropYear]crop.Yield) (ratio float64, programYear crop.CropYear) {
	for y := u.CropYear; y > u.CropYear-mostYearsProjected; y-- {
		published, has := publishedBenchmark(book, u, y)
		if !has {
			continue
		}
		if harvestedBenchmark := benchmarkFromSeries(harvested, u.Commodity, y); harvestedBenchmark > 0 {
			return published / harvestedBenchmark, y
		}
	}
	return 0, 0
}

// benchmarkFromSeries returns the benchmark yield that a series of yields would give
// under the rule of program year y, not rounded: the Olympic average of five years,
// each carried forward by the robust trend of the series where the rule adjusts yields
// for trend. 0 where the series lacks one of the five.
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
