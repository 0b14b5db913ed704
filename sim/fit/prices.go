package fit

import (
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// ForecastError returns the standard deviation of the log of final prices over forecasts
// without some of the years from which a row of parameters.csv was measured: sd and n are
// the row's, errors those of the years at hand, whose mean stands for that of all.
//
//	(n-1) sd^2 - n/(n-1) (e-mean)^2,  for each year left out, n falling by one
func ForecastError(sd float64, n int, errors map[crop.CropYear]float64, leave func(crop.CropYear) bool) float64 {
	var kept, out []float64
	for _, y := range slices.Sorted(maps.Keys(errors)) {
		if leave(y) {
			out = append(out, errors[y])
		} else {
			kept = append(kept, errors[y])
		}
	}
	if len(kept) == 0 {
		return sd
	}
	mean, squares := odds.Mean(kept), float64(n-1)*sd*sd
	for _, e := range out {
		squares -= float64(n) / float64(n-1) * (e - mean) * (e - mean)
		n--
	}
	return math.Sqrt(max(0, squares) / float64(n-1))
}
