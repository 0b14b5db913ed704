package odds

import (
	"fmt"
	"math"
	"slices"
)

// Summary describes one outcome over all draws.
type Summary struct {
	Mean          float64
	StandardError float64 // of Mean, by the spread of the replicates
	SD            float64 // of the outcome, over all draws
}

// Summarize returns mean, standard error and spread of values, which are laid
// out as the draws are.
//
//	SE = sd of the replicate means / sqrt(replicates)
//
// Within a replicate the draws are not independent, so the plain formula would
// be far too wide. A length other than d.N panics.
func Summarize(values []float64, d Draws) Summary {
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

// Mean returns the arithmetic mean, NaN of none. Halves are added to halves, so
// that 2^k equal values have exactly that mean.
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

// Share returns the share of values for which counts holds: a chance.
func Share(values []float64, counts func(float64) bool) float64 {
	n := 0
	for _, x := range values {
		if counts(x) {
			n++
		}
	}
	return float64(n) / float64(len(values))
}

// Chance returns Share with its standard error, by the spread of the
// replicates as in Summarize.
func Chance(values []float64, d Draws, counts func(float64) bool) (chance, standard float64) {
	shares := make([]float64, d.Replicates)
	for r := range shares {
		shares[r] = Share(values[r*d.Points:(r+1)*d.Points], counts)
	}
	return Mean(shares), standardError(shares)
}

// Percents are the percentiles that are reported.
var Percents = [...]int{5, 10, 25, 50, 75, 90, 95}

// Percentiles are the values at Percents.
type Percentiles [len(Percents)]float64

// PercentilesOf returns the percentiles of all draws pooled, type 7 of Hyndman
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
	var places []int
	for _, percent := range Percents {
		k := (len(values) - 1) * percent / 100
		places = append(places, k, min(k+1, len(values)-1))
	}
	at := orderStatistics(values, places)
	for i, percent := range Percents {
		// in whole hundredths, so that a percentile that falls on a value is that value
		part := float64((len(values)-1)*percent%100) / 100
		p[i] = at[2*i]
		if part > 0 {
			p[i] += part * (at[2*i+1] - at[2*i])
		}
	}
	return p
}

// buckets is the number of equal intervals into which values are sorted roughly.
const buckets = 2048

// orderStatistics returns the values at some places in rising order, from 0. It
// counts the values of each of many equal intervals, and sorts only those of the
// intervals that are asked for. The least and the most are counted apart: payments
// are often 0, or the maximum.
func orderStatistics(values []float64, places []int) []float64 {
	least, most := values[0], values[0]
	for _, x := range values {
		if x < least {
			least = x
		}
		if x > most {
			most = x
		}
	}
	scale := (buckets - 1) / (most - least)
	if math.IsInf(scale, 0) {
		scale = 0 // as good as equal: one interval holds all between
	}
	var count [buckets]int
	atLeast, atMost := 0, 0
	for _, x := range values {
		switch x {
		case least:
			atLeast++
		case most:
			atMost++
		default:
			count[int((x-least)*scale)]++
		}
	}
	found, inside := make([]float64, len(places)), map[int][]float64{}
	where := make([]struct{ bucket, below int }, len(places))
	for i, k := range places {
		switch {
		case k < atLeast:
			found[i] = least
		case k >= len(values)-atMost:
			found[i] = most
		default:
			below, b := atLeast, 0
			for below+count[b] <= k {
				below += count[b]
				b++
			}
			where[i].bucket, where[i].below = b+1, below // 0 stands for found
			inside[b] = make([]float64, 0, count[b])
		}
	}
	if len(inside) == 0 {
		return found
	}
	var wanted [buckets]bool
	for b := range inside {
		wanted[b] = true
	}
	for _, x := range values {
		if b := int((x - least) * scale); wanted[b] && x != least && x != most {
			inside[b] = append(inside[b], x)
		}
	}
	for b := range inside {
		slices.Sort(inside[b])
	}
	for i, w := range where {
		if w.bucket > 0 {
			found[i] = inside[w.bucket-1][places[i]-w.below]
		}
	}
	return found
}
