package elect

import (
	"math"
	"slices"
)

// Both percentiles lie in the tails, so that most totals need no sorting. A sample gives
// for each percentile a threshold a little nearer to the middle; one pass collects the
// totals beyond the two thresholds, and the order statistics are selected among these few.
// A threshold too far out costs time; the result is exact all the same.

// Percentiles of Figures.
const (
	LowPercent  = 5
	HighPercent = 95
)

const (
	sampleSize = 128 // totals in the sample, at least; all of them where there are fewer
	inward     = 12  // place of the threshold in the sample, from its end; the percentile itself is near place 6
)

// percentiles returns the 5th and 95th percentile of n totals, interpolated linearly
// between the order statistics around place (n-1)p, counted from 0.
func (w *Workspace) percentiles(totals []float64) (low, high float64) {
	n := len(totals)
	k, next, lowWeight := percentilePlaces(n, LowPercent)
	j, after, highWeight := percentilePlaces(n, HighPercent)
	lowest, highest := w.thresholds(totals)
	below, above := collect(w.low, w.high, totals, lowest, highest)
	a, b := w.orderStatistics(w.low[:below], totals, 0, lowest, k, next)
	c, d := w.orderStatistics(w.high[:above], totals, n-above, highest, j, after)
	return interpolate(a, b, lowWeight), interpolate(c, d, highWeight)
}

// percentilePlaces returns the places of the two order statistics around a percentile of
// n values, and the weight of the second, 0 to 1. It reckons in whole hundredths, so that
// the weight is exactly 0 where the percentile falls on a value.
func percentilePlaces(n, percent int) (k, next int, weight float64) {
	k = (n - 1) * percent / 100
	return k, min(k+1, n-1), float64((n-1)*percent%100) / 100
}

func interpolate(a, b, weight float64) float64 {
	if weight == 0 { // the percentile falls on a
		return a
	}
	return a + weight*(b-a)
}

// thresholds returns two of the totals that most likely enclose neither percentile: a low
// one above the 5th and a high one below the 95th. They come from a sample at even steps.
func (w *Workspace) thresholds(totals []float64) (low, high float64) {
	step, n := max(1, len(totals)/sampleSize), 0
	for i := 0; i < len(totals); i += step {
		w.low[n] = totals[i]
		n++
	}
	sample := w.low[:n]
	from := min(inward, n) - 1
	low = nth(sample, from)
	return low, nth(sample[from:], max(0, n-1-2*from))
}

// collect copies the totals below lowest to low and those above highest to high, and
// returns how many there are of each. Totals are 0 or more, and such floats are ordered as
// their bits are, so that counting needs no branch.
func collect(low, high, totals []float64, lowest, highest float64) (below, above int) {
	least, most := math.Float64bits(lowest), math.Float64bits(highest)
	low, high = low[:len(totals)], high[:len(totals)]
	for _, x := range totals {
		bits := math.Float64bits(x)
		low[below], high[above] = x, x
		below += int((bits - least) >> signBit)
		above += int((most - bits) >> signBit)
	}
	return below, above
}

const signBit = 63

// orderStatistics returns the totals at places k and next in rising order. Held are the
// totals beyond the threshold, which take the places from first on; the threshold itself
// is one of the totals. Places that are neither held nor equal to the threshold are
// selected among all totals.
func (w *Workspace) orderStatistics(held, totals []float64, first int, threshold float64, k, next int) (a, b float64) {
	end := first + len(held)
	switch {
	case first <= k && next < end:
		return neighbours(held, k-first, next-first)
	case first <= k && k < end: // the next is the threshold
		return slices.Max(held), threshold
	case first <= next && next < end:
		return threshold, slices.Min(held)
	}
	same := count(totals, threshold)
	if end <= k && next < end+same || first-same <= k && next < first {
		return threshold, threshold
	}
	copy(w.low, totals)
	return neighbours(w.low[:len(totals)], k, next)
}

// count returns how many values are equal to a given one.
func count(values []float64, to float64) (n int) {
	for _, x := range values {
		if x == to {
			n++
		}
	}
	return n
}

// neighbours returns the values at places k and next in rising order; next is k+1, or k at
// the end. It reorders values.
func neighbours(values []float64, k, next int) (a, b float64) {
	a = nth(values, k)
	if next == k {
		return a, a
	}
	return a, slices.Min(values[next:])
}

// nth returns the value at place k in rising order by Hoare's selection (quickselect). It
// reorders values: before place k none is larger, after it none smaller. Values must be 0
// or more: they are compared by their bits.
func nth(values []float64, k int) float64 {
	first, end := 0, len(values)
	for end-first > 1 {
		pivot := values[k]
		middle := first + partition(values[first:end], math.Float64bits(pivot))
		if k < middle {
			end = middle
			continue
		}
		first = middle + partition(values[middle:end], math.Float64bits(pivot)+1) // those equal to it
		if k < first {
			return pivot
		}
	}
	return values[k]
}

// partition moves the values whose bits are less than the given ones to the front, and
// returns how many there are.
func partition(values []float64, bits uint64) (n int) {
	for i, x := range values {
		values[i] = values[n]
		values[n] = x
		n += int((math.Float64bits(x) - bits) >> signBit)
	}
	return n
}
