package elect

import (
	"math"
	"slices"
)

// Both percentiles lie in the tails. A sample of the totals tells a threshold a
// little further in than each of them; one pass collects what lies beyond the two
// thresholds, and the places asked for are found among these few. A threshold that
// turns out too far out costs time, never exactness.

// The percentiles of Figures.
const (
	LowPercent  = 5
	HighPercent = 95
)

const (
	sampleSize = 128 // totals in the sample, at least
	inward     = 12  // the threshold's place in the sample from its end, where the percentile is near place 6
)

// percentiles returns the 5th and 95th of some totals: between the order statistics
// around (n-1)p, linearly.
func (w *Workspace) percentiles(totals []float64) (low, high float64) {
	n := len(totals)
	k, next, part := percentilePlaces(n, LowPercent)
	j, after, share := percentilePlaces(n, HighPercent)
	lowest, highest := w.thresholds(totals)
	below, above := collect(w.low, w.high, totals, lowest, highest)
	a, b := w.orderStatistics(w.low[:below], totals, 0, lowest, k, next)
	c, d := w.orderStatistics(w.high[:above], totals, n-above, highest, j, after)
	return interpolate(a, b, part), interpolate(c, d, share)
}

// percentilePlaces returns the two places of a percentile among n values in rising order, and
// how far it lies between them, in whole hundredths before it is divided.
func percentilePlaces(n, percent int) (k, next int, part float64) {
	k = (n - 1) * percent / 100
	return k, min(k+1, n-1), float64((n-1)*percent%100) / 100
}

func interpolate(a, b, part float64) float64 {
	if part == 0 { // a percentile that falls on a value is that value
		return a
	}
	return a + part*(b-a)
}

// thresholds returns two of the totals, of which most likely more than a percentile
// needs lie at or below the first, and at or above the second.
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

// collect copies the totals below one threshold and those above another, and returns
// how many there are. Values not below 0 are in the order of their bits, so that a
// place moves on without a branch.
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

// orderStatistics returns the totals at two neighbouring places in rising order: those from
// place first on are held, up to a threshold or from it on. The threshold is one of
// the totals.
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

// count returns how many values are equal to one.
func count(values []float64, to float64) (n int) {
	for _, x := range values {
		if x == to {
			n++
		}
	}
	return n
}

// neighbours returns the values at place k and the next, which is k itself at the
// end; it changes their order.
func neighbours(values []float64, k, next int) (a, b float64) {
	a = nth(values, k)
	if next == k {
		return a, a
	}
	return a, slices.Min(values[next:])
}

// nth returns the value at place k in rising order, with none above it before that
// place and none below it behind: Hoare's selection. It parts values without a
// branch, by the sign of the difference of their bits.
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

// partition puts the values whose bits are below some first and returns how many they are.
func partition(values []float64, bits uint64) (n int) {
	for i, x := range values {
		values[i] = values[n]
		values[n] = x
		n += int((math.Float64bits(x) - bits) >> signBit)
	}
	return n
}
