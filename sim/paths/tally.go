package paths

import "math"

// bins is the number of equal intervals of a histogram.
const bins = 2048

// tally sums up one series as it is drawn: sums by replicate, and how often it
// lies in each interval from 0 to its top. What is 0, or at the top or above, is
// counted apart, so that percentiles there are exact; elsewhere they err by less
// than an interval.
type tally struct {
	top, scale float64
	sums       []float64        // by replicate
	zero       uint64           // of those in the first interval
	count      [bins + 1]uint32 // the last: at the top or above
}

func newTally(top float64, replicates int) *tally {
	t := &tally{top: max(top, math.SmallestNonzeroFloat32), sums: make([]float64, replicates)}
	t.scale = bins / t.top
	for int(t.top*t.scale) < bins { // the top falls in the last interval
		t.scale = math.Nextafter(t.scale, math.Inf(1))
	}
	return t
}

// add takes in a tile of values, none below 0.
func (t *tally) add(values []float64, replicate int) {
	const signBit = 63
	sum, zero, scale := 0.0, uint64(0), t.scale
	count := &t.count
	for _, x := range values {
		sum += x
		zero += (math.Float64bits(x) - 1) >> signBit // 1 for 0 alone
		count[min(int(x*scale), bins)]++
	}
	t.sums[replicate] += sum
	t.zero += zero
}

// merge takes in the counts of another tally of the same series; sums of other
// replicates are already apart.
func (t *tally) merge(other *tally) {
	for i, x := range other.sums {
		t.sums[i] += x
	}
	t.zero += other.zero
	for i, n := range other.count {
		t.count[i] += n
	}
}

// Series describes one series over all draws.
type Series struct {
	Mean, StandardError float64
	Paying, Full        float64    // shares of draws above 0, and at the top
	Percentiles         [5]float64 // 5, 25, 50, 75, 95
}

// percents are those of Series.Percentiles.
var percents = [...]float64{0.05, 0.25, 0.50, 0.75, 0.95}

func (t *tally) series(draws int) Series {
	replicates := float64(len(t.sums))
	perReplicate := float64(draws) / replicates
	mean, squares := 0.0, 0.0
	for _, sum := range t.sums {
		mean += sum / perReplicate / replicates
	}
	for _, sum := range t.sums {
		squares += (sum/perReplicate - mean) * (sum/perReplicate - mean)
	}
	s := Series{Mean: mean, StandardError: math.Sqrt(squares / (replicates - 1) / replicates),
		Paying: 1 - float64(t.zero)/float64(draws), Full: float64(t.count[bins]) / float64(draws)}
	for i, p := range percents {
		s.Percentiles[i] = t.percentile(p*float64(draws-1), draws)
	}
	return s
}

// percentile returns the value at a place in rising order, by even spacing within
// an interval.
func (t *tally) percentile(place float64, draws int) float64 {
	if place < float64(t.zero) {
		return 0
	}
	if place >= float64(draws)-float64(t.count[bins]) {
		return t.top
	}
	below := float64(t.zero)
	for i, n := range t.count {
		if i == 0 {
			n -= uint32(t.zero)
		}
		if place < below+float64(n) {
			return (float64(i) + (place-below+0.5)/float64(n)) / t.scale
		}
		below += float64(n)
	}
	return t.top
}
