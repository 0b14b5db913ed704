package odds

import (
	"math"
	"slices"
)

// buckets is the number of equal intervals into which values are sorted roughly.
const buckets = 2048

// intervals count values roughly: how many lie in each of many equal intervals. The
// least and the most are counted apart: payments are often 0, or the maximum.
type intervals struct {
	least, most, scale float64
	atLeast, atMost    int
	count              [buckets]int
}

func (n *intervals) add(values []float64) {
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
	n.least, n.most, n.scale = least, most, scale
	for _, x := range values {
		switch x {
		case least:
			n.atLeast++
		case most:
			n.atMost++
		default:
			n.count[int((x-least)*scale)]++
		}
	}
}

// of returns the interval in which the k-th of all values lies, and how many lie
// before it.
func (n *intervals) of(k int) (interval, below int) {
	below = n.atLeast
	for below+n.count[interval] <= k {
		below += n.count[interval]
		interval++
	}
	return interval, below
}

// orderStatistics returns the values at some places in rising order, from 0. Only
// the values of the intervals that are asked for are sorted.
func orderStatistics(values []float64, places []int) []float64 {
	var n intervals // on the stack: fresh memory would cost more than the counting
	n.add(values)
	inside := map[int][]float64{}
	var wanted [buckets]bool
	between := func(k int) bool { return k >= n.atLeast && k < len(values)-n.atMost }
	for _, k := range places {
		if between(k) {
			b, _ := n.of(k)
			wanted[b], inside[b] = true, make([]float64, 0, n.count[b])
		}
	}
	if len(inside) > 0 {
		for _, x := range values {
			if b := int((x - n.least) * n.scale); wanted[b] && x != n.least && x != n.most {
				inside[b] = append(inside[b], x)
			}
		}
	}
	for b := range inside {
		slices.Sort(inside[b])
	}
	found := make([]float64, len(places))
	for i, k := range places {
		switch {
		case between(k):
			b, below := n.of(k)
			found[i] = inside[b][k-below]
		case k < n.atLeast:
			found[i] = n.least
		default:
			found[i] = n.most
		}
	}
	return found
}
