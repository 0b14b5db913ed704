package paths

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
)

// Each loop does one thing to a tile of draws. They allocate nothing.

// correlate sets dst to the sum of independent normals by one row of loadings.
func correlate(dst []float64, row []float64, normals [][]float64) {
	clear(dst)
	for j, loading := range row {
		if loading == 0 {
			continue
		}
		for i, z := range normals[j] {
			dst[i] += loading * z
		}
	}
}

// carry mixes last year's normals of a price into this year's own, in place.
func carry(dst, before []float64, part float64) {
	own := math.Sqrt(1 - part*part)
	for i, z := range dst {
		dst[i] = part*before[i] + own*z
	}
}

// prices sets dst to lognormal prices of the mean given, rounded.
func prices(dst, z []float64, mean crop.Price, sigma float64, decimals int) {
	shift := -sigma * sigma / 2
	for i := range dst {
		dst[i] = program.Round(mean*math.Exp(sigma*z[i]+shift), decimals)
	}
}

// yields sets dst to normal yields, not below 0, rounded.
func yields(dst, z []float64, mean, sd crop.Yield, decimals int) {
	for i := range dst {
		dst[i] = program.Round(max(0, mean+sd*z[i]), decimals)
	}
}

// olympic sets dst to the mean of the middle three of five values of each draw,
// each first raised to floor where that is given.
func olympic(dst []float64, five [5][]float64, floor []float64) {
	a, b, c, d, e := five[0], five[1][:len(dst)], five[2][:len(dst)], five[3][:len(dst)], five[4][:len(dst)]
	a = a[:len(dst)]
	if floor == nil {
		for i := range dst {
			dst[i] = program.OlympicAverage([5]float64{a[i], b[i], c[i], d[i], e[i]})
		}
		return
	}
	floor = floor[:len(dst)]
	for i, f := range floor {
		dst[i] = program.OlympicAverage([5]float64{max(a[i], f), max(b[i], f), max(c[i], f), max(d[i], f), max(e[i], f)})
	}
}

// targets turns averages of five prices into effective reference prices, in place.
func targets(dst []float64, t program.Terms) {
	most := program.Round(t.EffectiveLimit*t.ReferencePrice, t.PriceDecimals)
	for i, average := range dst {
		share := program.Round(t.AverageShare*average, t.PriceDecimals)
		dst[i] = program.Round(min(most, max(t.ReferencePrice, share)), t.PriceDecimals)
	}
}

// round rounds in place.
func round(dst []float64, decimals int) {
	for i, x := range dst {
		dst[i] = program.Round(x, decimals)
	}
}

// plcRates sets dst to PLC rates.
func plcRates(dst, prices, target []float64, t program.Terms) {
	for i, mya := range prices {
		dst[i] = program.PLC{TargetPrice: target[i], LoanRate: t.LoanRate, Decimals: t.RateDecimals}.Rate(mya)
	}
}

// arcRates sets dst to ARC-CO rates and most to what each can be at most.
func arcRates(dst, most, prices, yields, benchmarkPrice, benchmarkYield []float64, t program.Terms) {
	for i, mya := range prices {
		c := program.NewARCCO(benchmarkYield[i], benchmarkPrice[i], t.GuaranteeShare, t.MaximumShare)
		dst[i] = c.Rate(program.ActualRevenue(yields[i], program.ActualPrice(mya, t.LoanRate)))
		most[i] = c.Maximum
	}
}

// scale multiplies in place.
func scale(dst []float64, by float64) {
	for i := range dst {
		dst[i] *= by
	}
}

// add sets dst to the sum of two series, either of which may be dst.
func add(dst, a, b []float64) {
	a, b = a[:len(dst)], b[:len(dst)]
	for i := range dst {
		dst[i] = a[i] + b[i]
	}
}

// atMost lowers in place.
func atMost(dst []float64, limit float64) {
	for i, x := range dst {
		dst[i] = min(limit, x)
	}
}
