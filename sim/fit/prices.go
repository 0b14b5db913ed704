package fit

import (
	"cmp"
	"fmt"
	"maps"
	"math"
	"slices"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

// ForecastMiss is by how much a final price came out above USDA's projection of one month.
type ForecastMiss struct {
	Commodity string // as the forecasts list it
	CropYear  crop.CropYear
	Month     string  // of the harvest year ("May") or the next ("May+1")
	Log       float64 // of the final price over the projection
}

// ForecastErrors returns the standard deviation of the misses of each commodity and month.
// Crop years held back enter none.
func ForecastErrors(misses []ForecastMiss) []Estimate {
	type place struct{ commodity, month string }
	logs, years := map[place][]float64{}, map[place][]crop.CropYear{}
	for _, m := range misses {
		if at := (place{m.Commodity, m.Month}); !HeldBack(m.CropYear) {
			logs[at], years[at] = append(logs[at], m.Log), append(years[at], m.CropYear)
		}
	}
	var all []Estimate
	for _, at := range slices.SortedFunc(maps.Keys(logs), func(a, b place) int {
		return cmp.Or(cmp.Compare(a.commodity, b.commodity), cmp.Compare(a.month, b.month))
	}) {
		const fewest = 8 // years
		if len(logs[at]) < fewest {
			continue
		}
		mean, sd := stat.MeanStdDev(logs[at], nil)
		all = append(all, Estimate{Param: "sd_ln_final_over_wasde", Commodity: at.commodity, Region: "US", Key: at.month, Value: rounded(sd, 5),
			Count: len(logs[at]), Period: yearsSpan(years[at]), Source: "WASDE", Note: fmt.Sprintf("mean log error %+.3f", mean)})
	}
	return all
}

// ForecastErrorWithout returns the standard deviation of the log of final prices over
// forecasts without one of the years it was measured on: sd and n are the whole's, errors
// those of some of its years, whose mean stands for that of all.
//
//	sqrt(((n-1) sd^2 - (n-1)/n (e-mean)^2) / (n-2)),  mean that of the others
//
// A year that is not among errors leaves sd as it is.
func ForecastErrorWithout(sd float64, n int, errors map[crop.CropYear]float64, out crop.CropYear) float64 {
	e, has := errors[out]
	if !has || len(errors) == 1 {
		return sd
	}
	mean := 0.0
	for _, y := range slices.Sorted(maps.Keys(errors)) {
		if y != out {
			mean += errors[y] / float64(len(errors)-1)
		}
	}
	squares := float64(n-1)*sd*sd - float64(n-1)/float64(n)*(e-mean)*(e-mean)
	return math.Sqrt(max(0, squares) / float64(n-2))
}
