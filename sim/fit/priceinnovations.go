package fit

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Prices are final marketing-year average prices by commodity and crop year, each commodity
// in a unit of its own.
type Prices map[crop.Commodity]map[crop.CropYear]crop.Price

// The crop years that innovations are taken from, and the commodities whose long series are
// at hand: soybeans, rice and cotton are not among them.
const (
	firstPrice, lastPrice = 1990, 2024
	firstCorrelated       = 1992 // canola begins in 1991
)

var (
	correlated = []crop.Commodity{crop.Corn, crop.Wheat, crop.GrainSorghum, crop.Barley, crop.Oats, crop.Peanuts, crop.Canola, crop.SunflowerSeed, crop.Flaxseed, crop.DryPeas}
	innovating = correlated[:6]
)

// shrinkage is how far a sample correlation is moved towards the mean of all. A judgement:
// the data would allow about half.
const shrinkage = 0.25

// pricePeriod is a period in words.
func pricePeriod(first crop.CropYear) string {
	return fmt.Sprintf("%d-%d without 2016 and 2022", first, lastPrice)
}

// PriceInnovations returns what the yearly surprises of prices are like: the correlations of
// pairs of commodities, their standard deviations, and by what those of the later crop years
// of a path are wider. Each of the ten commodities of the long series must be there from
// 1990 to 2024, canola from 1991.
func PriceInnovations(p Prices) []Estimate {
	return append(append(priceCorrelations(p), innovationSpreads(p)...), laterYears(p))
}

// priceCorrelations returns the correlations of yearly changes of the logarithm of prices,
// of each pair of commodities with a long series, shrunk towards the mean of all pairs.
//
//	r = (1 - shrinkage) sample + shrinkage mean,  error = (1 - shrinkage) (1 - sample^2)/sqrt(n-1)
func priceCorrelations(p Prices) (rows []Estimate) {
	var samples []float64
	for i, a := range correlated {
		for _, b := range correlated[i+1:] {
			r, n := changesTogether(p[a], p[b])
			samples = append(samples, r)
			rows = append(rows, Estimate{Param: "corr_ln_mya_innovations", Commodity: string(a) + "|" + string(b), Region: "US", Key: "annual",
				Error: (1 - shrinkage) * (1 - r*r) / math.Sqrt(float64(n-1)), Count: n, Period: pricePeriod(firstCorrelated), Source: "NASS-MYA-derived"})
		}
	}
	mean := odds.Mean(samples)
	for i := range rows {
		rows[i].Value = hundredths((1-shrinkage)*samples[i] + shrinkage*mean)
		rows[i].Note = fmt.Sprintf("sample %.2f shrunk a quarter of the way to the mean %.2f of the 45 pairs", samples[i], mean)
	}
	return rows
}

// changesTogether returns the correlation of yearly log changes and how many there are;
// those from or to a year that is held back are left out.
func changesTogether(a, b map[crop.CropYear]crop.Price) (r float64, n int) {
	x, y := yearly{}, yearly{}
	for year := firstCorrelated; year <= lastPrice; year++ {
		if !HeldBack(year) && !HeldBack(year-1) {
			x[year], y[year] = math.Log(a[year]/a[year-1]), math.Log(b[year]/b[year-1])
		}
	}
	pairs := pairSums{}
	x, y = x.standardized(2), y.standardized(2)
	for year := range x {
		pairs.add(year, x[year]*y[year], 1)
	}
	return pairs.measure(map[string]bool{}).value, len(x)
}

// innovationSpreads returns the standard deviation of the yearly innovations of the log
// price about a straight trend:
//
//	x[t] = a + rho x[t-1] + e[t],  sd = sqrt(sum e^2/(n-3)),  error = sd/sqrt(2(n-3))
//
// x is the distance of the logarithm from its least-squares line; both coefficients are by
// least squares. Pairs of years with one that is held back are left out.
func innovationSpreads(p Prices) (rows []Estimate) {
	for _, c := range innovating {
		sd, n := innovation(logs(p[c]).detrended())
		rows = append(rows, Estimate{Param: "ar1_innovation_sd", Commodity: string(c), Region: "US", Key: "1 year", Value: rounded(sd, 4),
			Error: sd / math.Sqrt(2*float64(n-3)), Count: n, Period: pricePeriod(firstPrice), Source: "NASS-MYA-derived"})
	}
	return rows
}

// logs returns the logarithms of the prices of the period that are not held back.
func logs(prices map[crop.CropYear]crop.Price) yearly {
	x := yearly{}
	for y := firstPrice; y <= lastPrice; y++ {
		if price := prices[y]; price > 0 && !HeldBack(y) {
			x[y] = math.Log(price)
		}
	}
	return x
}

// detrended returns the distances from the least-squares line.
func (s yearly) detrended() yearly {
	years := slices.Sorted(maps.Keys(s))
	var x, y []float64
	for _, year := range years {
		x, y = append(x, float64(year)), append(y, s[year])
	}
	height, slope := leastSquares(x, y)
	rest := yearly{}
	for i, year := range years {
		rest[year] = y[i] - height - slope*x[i]
	}
	return rest
}

// innovation returns the standard deviation about an autoregression of order one and the
// number of pairs of consecutive years.
func innovation(s yearly) (sd float64, n int) {
	var before, after []float64
	for _, y := range slices.Sorted(maps.Keys(s)) {
		if last, ok := s[y-1]; ok {
			before, after = append(before, last), append(after, s[y])
		}
	}
	height, slope := leastSquares(before, after)
	squares := 0.0
	for i := range before {
		e := after[i] - height - slope*before[i]
		squares += e * e
	}
	return math.Sqrt(squares / float64(len(before)-3)), len(before)
}

// leastSquares returns the line through points: height at x = 0 and slope.
func leastSquares(x, y []float64) (height, slope float64) {
	mx, my, xy, xx := odds.Mean(x), odds.Mean(y), 0.0, 0.0
	for i := range x {
		xy += (x[i] - mx) * (y[i] - my)
		xx += (x[i] - mx) * (x[i] - mx)
	}
	return my - xy/xx*mx, xy / xx
}

// The years of a path that are compared, counted from its first crop year, whose spread
// stays as it is.
const firstLater, lastLater = 2, 5

// laterYears returns by what the innovations of the second and later crop years of a path
// must be multiplied for the spread of years 2 to 5 to be the one that came: one figure for
// all commodities, rounded to 0.05.
func laterYears(p Prices) Estimate {
	paths := laterPaths(p)
	blocks := (lastPrice-firstPrice)/blockYears + 1
	factor, err := jackknife(blocks, func(out int) float64 { return widening(paths, out) })
	return Estimate{Param: "later_innovation_factor", Commodity: "all", Region: "US", Key: "years two and on", Value: rounded(20*factor, 0) / 20, Error: err,
		Count: len(innovating), Period: pricePeriod(firstPrice), Source: "NASS-MYA-derived",
		Note: fmt.Sprintf("%.3f before rounding; n: commodities; error by leaving out %d crop years at a time", factor, blockYears)}
}

// blockYears is how many crop years are left out together for the error: paths overlap.
const blockYears = 5

// laterPath is one commodity's past from one stage of knowledge: how far prices were off
// their path, and what the model says.
type laterPath struct {
	commodity crop.Commodity
	stage     string
	errors    [lastLater + 1]yearly // log errors by year of the path and crop year of the outcome
	first     float64               // standard deviation of the first year's log error
	change    float64               // of a year's innovation
}

// laterPaths returns the paths of two stages: early in the first harvest year, when its
// price is open, and late in its marketing year, when it is all but known. A path goes from
// the last known price back to the mean logarithm of the period as a share of the
// distance, Persistence, is left every year.
func laterPaths(p Prices) (paths []laterPath) {
	for _, c := range innovating {
		x := logs(p[c])
		mean := 0.0
		for _, y := range slices.Sorted(maps.Keys(x)) {
			mean += x[y] / float64(len(x))
		}
		early, _ := odds.Usual.Volatility(c, lastPrice, time.Date(lastPrice, time.March, 15, 0, 0, 0, 0, time.UTC))
		change, _ := innovation(x.detrended())
		for known, stage := range []string{"first price known", "before the first harvest"} {
			path := laterPath{commodity: c, stage: stage, first: early * float64(known), change: change}
			for k := firstLater; k <= lastLater; k++ {
				ahead := k - 1 + known // years beyond the last known price
				path.errors[k] = yearly{}
				for y := range x {
					if last, ok := x[y-ahead]; ok {
						path.errors[k][y] = x[y] - mean - math.Pow(odds.Persistence(), float64(ahead))*(last-mean)
					}
				}
			}
			paths = append(paths, path)
		}
	}
	return paths
}

// realized returns the root mean square of the errors of year k of a path and their number,
// without those of one block of crop years (-1: none).
func (p laterPath) realized(k, out int) (rms float64, n int) {
	squares := 0.0
	for _, y := range slices.Sorted(maps.Keys(p.errors[k])) {
		if (y-firstPrice)/blockYears != out {
			squares += p.errors[k][y] * p.errors[k][y]
			n++
		}
	}
	return math.Sqrt(squares / float64(n)), n
}

// model returns the standard deviation that the model gives year k with innovations
// multiplied by factor.
func (p laterPath) model(k int, factor float64) float64 {
	v := p.first
	for range k - 1 {
		v = math.Hypot(odds.Persistence()*v, factor*p.change)
	}
	return v
}

// widening returns the factor, in steps of 0.005, with the least squares of the logarithm of
// realized over modelled spread, each year of a path weighted by its number of outcomes.
func widening(paths []laterPath, out int) (factor float64) {
	least := math.Inf(1)
	for step := 160; step <= 320; step++ {
		f, off := float64(step)/200, 0.0
		for _, p := range paths {
			for k := firstLater; k <= lastLater; k++ {
				rms, n := p.realized(k, out)
				d := math.Log(rms / p.model(k, f))
				off += float64(n) * d * d
			}
		}
		if off < least {
			factor, least = f, off
		}
	}
	return factor
}
