package odds

import (
	"math"
	"slices"
)

// buckets is the number of equal intervals into which values are counted.
const buckets = 2048

// intervals is a histogram of values between two ends, from which order statistics are
// found without sorting all of them. Values at an end are counted apart: payments are
// often 0, or the maximum.
type intervals struct {
	least, most, scale      float64
	values, atLeast, atMost int // how many in all, at the lower end, at the upper end
	inside                  [buckets]int32
}

// span sets the ends to the least and the most of values.
func (n *intervals) span(values []float64) {
	n.least, n.most = values[0], values[0]
	for _, x := range values {
		if x < n.least {
			n.least = x
		}
		if x > n.most {
			n.most = x
		}
	}
	n.scale = (buckets - 1) / (n.most - n.least)
	if math.IsInf(n.scale, 0) {
		n.scale = 0 // practically equal: one interval takes all between the ends
	}
}

// add counts values, none beyond the ends.
func (n *intervals) add(values []float64) {
	n.values += len(values)
	least, most, scale := n.least, n.most, n.scale
	for _, x := range values {
		switch x {
		case least:
			n.atLeast++
		case most:
			n.atMost++
		default:
			n.inside[int((x-least)*scale)]++
		}
	}
}

// merge adds the counts of another histogram with the same ends.
func (n *intervals) merge(other *intervals) {
	n.values, n.atLeast, n.atMost = n.values+other.values, n.atLeast+other.atLeast, n.atMost+other.atMost
	for b, k := range other.inside {
		n.inside[b] += k
	}
}

// at returns the order statistics at some places of the sorted values, counted from 0
// and rising. values are those that were counted; only those in the intervals that
// hold a place are sorted.
func (n *intervals) at(places []int, values []float64) []float64 {
	var slot [buckets]uint16 // of an interval that holds a place, from 1; 0: it holds none
	var held [][]float64     // by slot, from 0: the values of the interval
	found, slots, before := make([]float64, len(places)), make([]uint16, len(places)), make([]int, len(places))
	b, below := 0, n.atLeast
	for i, k := range places {
		switch {
		case k < n.atLeast:
			found[i] = n.least
			continue
		case k >= n.values-n.atMost:
			found[i] = n.most
			continue
		case k < below:
			b, below = 0, n.atLeast
		}
		for below+int(n.inside[b]) <= k {
			below += int(n.inside[b])
			b++
		}
		if slot[b] == 0 {
			held = append(held, make([]float64, 0, n.inside[b]))
			slot[b] = uint16(len(held))
		}
		slots[i], before[i] = slot[b], below
	}
	if len(held) > 0 {
		n.hold(held, &slot, values)
	}
	for i, k := range places {
		if slots[i] > 0 {
			found[i] = held[slots[i]-1][k-before[i]]
		}
	}
	return found
}

// hold collects and sorts the values of the intervals that have a slot.
func (n *intervals) hold(held [][]float64, slot *[buckets]uint16, values []float64) {
	for _, x := range values {
		if at := slot[int((x-n.least)*n.scale)]; at > 0 && x != n.least && x != n.most {
			held[at-1] = append(held[at-1], x)
		}
	}
	for _, inside := range held {
		slices.Sort(inside)
	}
}
