package odds

import (
	"fencerow/program/crop"
)

// GivesMean reports whether yearly yields of a county, oldest first, can give the
// mean of crop year of by their trend: there are YearsForTrend of them, and the
// last is not older than the years that parameters.csv allows. An older series
// still gives their variation.
func GivesMean(years []int, of crop.CropYear) bool {
	n := len(years)
	return n >= YearsForTrend && float64(of-years[n-1]) <= must("county_mean_series", "all", "US", "years since its end")
}

// InLine reports whether a mean county yield stands near enough to the benchmark
// yield to be of the same county, commodity and practice. Nothing is held against
// a benchmark of 0.
func InLine(mean, benchmark crop.Yield) bool {
	const param = "county_mean_over_benchmark"
	return benchmark <= 0 ||
		mean >= must(param, "all", "US", "least")*benchmark && mean <= must(param, "all", "US", "most")*benchmark
}

// MeanWeight returns the weight of a county's trend in the mean yield, as a share of one;
// the benchmark yield has the rest. A trend of one county errs by the accident of its
// years, and the benchmark of the program year holds the same trend since 2019.
func (k *Constants) MeanWeight() float64 {
	return k.must("county_mean_weight", "all", "US", "of the trend")
}
