package fit

import (
	"fmt"
	"math"

	"fencerow/program/crop"
)

// Expected is what a county's trend and the benchmark of the program year said of a yield,
// and what came.
type Expected struct {
	CropYear         crop.CropYear
	Weight           crop.Acres // base acres it stands for, of all that the commodity has in the year
	Trend, Benchmark crop.Yield
	Actual           crop.Yield
}

// MeanWeight returns the weight of a county's trend in its mean yield, the benchmark having
// the rest: least squares of actual over benchmark, less one, on trend over benchmark, less
// one, through the origin, every crop year counting alike, to the nearest quarter. The error
// is that of leaving out one crop year after the other.
func MeanWeight(came []Expected) Estimate {
	type sums struct{ xx, xy, weight float64 }
	years := map[crop.CropYear]*sums{}
	var order []crop.CropYear
	for _, e := range came {
		of := years[e.CropYear]
		if of == nil {
			of = &sums{}
			years[e.CropYear] = of
			order = append(order, e.CropYear)
		}
		x, y := e.Trend/e.Benchmark-1, cut(e.Actual/e.Benchmark-1)
		of.xx, of.xy, of.weight = of.xx+e.Weight*x*x, of.xy+e.Weight*x*y, of.weight+e.Weight
	}
	raw, standard := jackknife(len(order), func(out int) float64 {
		var all sums
		for i, y := range order {
			if of := years[y]; i != out {
				all.xx, all.xy = all.xx+of.xx/of.weight, all.xy+of.xy/of.weight
			}
		}
		return all.xy / all.xx
	})
	return Estimate{Param: "county_mean_weight", Commodity: "all", Region: "US", Key: "of the trend", Value: nearestQuarter(raw),
		Error: standard, Count: len(came), Period: yearsSpan(order), Source: "backtest",
		Note: fmt.Sprintf("%.2f to the nearest quarter; the rest of the mean is the benchmark yield", raw)}
}

// nearestQuarter returns the quarter from 0 to 1 that is nearest.
func nearestQuarter(x float64) float64 {
	nearest := 0.0
	for _, q := range []float64{0.25, 0.5, 0.75, 1} {
		if math.Abs(x-q) < math.Abs(x-nearest) {
			nearest = q
		}
	}
	return nearest
}

// cut keeps a yield far off its benchmark from deciding alone.
func cut(x float64) float64 { return min(1, max(-1, x)) }
