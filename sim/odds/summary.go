package odds

import (
	"fmt"
	"math"

	"fencerow/sim/odds/rank"
)

// Summary describes one figure over all scenarios, in its unit.
type Summary struct {
	Mean          float64
	StandardError float64 // of Mean, from the differences between replicates
	SD            float64 // of the figure, over all scenarios
}

// Summarize returns mean, standard error and standard deviation of values by scenario.
//
//	SE = sd of the replicate means / sqrt(replicates)
//
// Within a replicate the scenarios are not independent, so the plain formula would
// be far too wide. A length other than d.N panics.
func Summarize(values []float64, d Scenarios) Summary {
	if len(values) != d.N() {
		panic(fmt.Sprintf("sim/odds: %d values for %d draws", len(values), d.N()))
	}
	s := Summary{Mean: Mean(values)}
	means := make([]float64, d.Replicates)
	squares := 0.0
	for r := range means {
		block := values[r*d.Points : (r+1)*d.Points]
		means[r] = Mean(block)
		for _, x := range block {
			squares += (x - s.Mean) * (x - s.Mean)
		}
	}
	s.SD = math.Sqrt(squares / float64(len(values)))
	s.StandardError = standardError(means)
	return s
}

// standardError returns the standard error of the mean of independent means.
func standardError(means []float64) float64 {
	if len(means) < 2 {
		return math.NaN()
	}
	center, squares := Mean(means), 0.0
	for _, m := range means {
		squares += (m - center) * (m - center)
	}
	n := float64(len(means))
	return math.Sqrt(squares / (n - 1) / n)
}

// Mean returns the arithmetic mean, NaN of none. It adds pairwise (halves to halves),
// so that 2^k equal values have exactly that mean.
func Mean(values []float64) float64 { return sum(values) / float64(len(values)) }

func sum(values []float64) float64 {
	switch n := len(values); n {
	case 0:
		return 0
	case 1:
		return values[0]
	case 2:
		return values[0] + values[1]
	case 8:
		v := (*[8]float64)(values)
		return ((v[0] + v[1]) + (v[2] + v[3])) + ((v[4] + v[5]) + (v[6] + v[7]))
	default:
		return sum(values[:n/2]) + sum(values[n/2:])
	}
}

// Share returns the share of values for which counts holds.
func Share(values []float64, counts func(float64) bool) float64 {
	n := 0
	for _, x := range values {
		if counts(x) {
			n++
		}
	}
	return float64(n) / float64(len(values))
}

// Chance returns Share with its standard error, from the differences between
// replicates as in Summarize.
func Chance(values []float64, d Scenarios, counts func(float64) bool) (chance, standard float64) {
	each := make([]float64, d.Replicates)
	for r := range each {
		each[r] = Share(values[r*d.Points:(r+1)*d.Points], counts)
	}
	return OfReplicates(each)
}

// OfReplicates returns the mean of a figure over the replicates and its standard
// error, as in Summarize.
func OfReplicates(each []float64) (mean, standard float64) { return Mean(each), standardError(each) }

// Percents are the percentiles that are reported.
var Percents = [...]int{5, 10, 25, 50, 75, 90, 95}

// Percentiles are the values at Percents.
type Percentiles [len(Percents)]float64

// PercentilesOf returns the percentiles over all scenarios, type 7 of Hyndman
// and Fan: between the order statistics around (n-1)p, linearly. Values are
// not changed; NaN of none.
//
// Source: R. J. Hyndman and Y. Fan, Sample quantiles in statistical packages,
// The American Statistician 50 (1996), 361-365.
func PercentilesOf(values []float64) (p Percentiles) {
	if len(values) == 0 {
		for i := range p {
			p[i] = math.NaN()
		}
		return p
	}
	all := rank.Count(values)
	defer all.Release()
	fill(p[:], Percents[:], all, len(values))
	return p
}

// PercentilesWithErrors returns PercentilesOf with their standard errors, from the
// percentiles of each replicate as in Summarize.
func PercentilesWithErrors(values []float64, d Scenarios) (p, errors Percentiles) {
	all := rank.Count(values)
	defer all.Release()
	var each [len(Percents)][]float64
	var one rank.Counted
	for r := range d.Replicates {
		all.Part(&one, r*d.Points, (r+1)*d.Points)
		fill(p[:], Percents[:], &one, d.Points)
		for i, x := range p {
			each[i] = append(each[i], x)
		}
	}
	for i := range errors {
		errors[i] = standardError(each[i])
	}
	fill(p[:], Percents[:], all, len(values))
	return p, errors
}

// fill sets dst to the percentiles of n values at some percents, which rise.
func fill(dst []float64, percents []int, values *rank.Counted, n int) {
	places, found := make([]int, 2*len(percents)), make([]float64, 2*len(percents))
	for i, percent := range percents {
		k := (n - 1) * percent / 100
		places[2*i], places[2*i+1] = k, min(k+1, n-1)
	}
	values.At(found, places)
	for i, percent := range percents {
		// in whole hundredths, so that a percentile that falls on a value is that value
		part := float64((n-1)*percent%100) / 100
		dst[i] = found[2*i]
		if part > 0 {
			dst[i] += part * (found[2*i+1] - found[2*i])
		}
	}
}

// cases is how many evenly spaced cases stand for all scenarios in a picture: each for
// two in a hundred.
const cases = 50

// CasesOf returns the percentiles 1, 3, ..., 99 over all scenarios, type 7 as those of
// PercentilesOf, rising; nil of none. Values are not changed.
func CasesOf(values []float64) []float64 {
	if len(values) == 0 {
		return nil
	}
	counted := rank.Count(values)
	defer counted.Release()
	var percents [cases]int
	for i := range percents {
		percents[i] = (2*i + 1) * 100 / (2 * cases)
	}
	all := make([]float64, cases)
	fill(all, percents[:], counted, len(values))
	return all
}
