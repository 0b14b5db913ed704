package rank

import (
	"math"
	"slices"
	"sync"
)

// intervals is the number of intervals into which values are counted. The first and the last
// hold the values at the ends alone: payments are often 0, or the maximum.
const (
	intervals       = 2048
	atLeast, atMost = 0, intervals - 1
)

// Counted is a series whose values are counted by interval between its least and its most.
// Its parts share the intervals of the whole.
type Counted struct {
	least, most float64
	values      []float64
	at          []uint16          // the interval of each value
	counts      [intervals]int32  // by interval
	slot        [intervals]uint16 // of an interval that is looked into, from 1; 0: it is not
}

// free are counted series that are not in use: fresh memory costs more than the counting.
var free = sync.Pool{New: func() any { return new(Counted) }}

// Count counts a series of at least one value; it is not changed. Call Release when done.
func Count(values []float64) *Counted {
	c := free.Get().(*Counted)
	c.values, c.at = values, slices.Grow(c.at[:0], len(values))[:len(values)]
	c.least, c.most = values[0], values[0]
	for _, x := range values {
		if x < c.least {
			c.least = x
		}
		if x > c.most {
			c.most = x
		}
	}
	scale := (intervals - 3) / (c.most - c.least)
	if math.IsInf(scale, 0) {
		scale = 0 // practically equal: one interval takes all between the ends
	}
	for i, x := range values {
		at := uint16((x-c.least)*scale) + 1
		if x == c.least {
			at = atLeast
		} else if x == c.most {
			at = atMost
		}
		c.at[i] = at
	}
	c.count()
	return c
}

// count counts the values anew.
func (c *Counted) count() {
	clear(c.counts[:])
	clear(c.slot[:])
	for _, b := range c.at {
		c.counts[b%intervals]++
	}
}

// Part fills dst with the values from one place to before another, as counted as the whole.
// It holds until the whole is released.
func (c *Counted) Part(dst *Counted, from, to int) {
	dst.least, dst.most, dst.values, dst.at = c.least, c.most, c.values[from:to], c.at[from:to]
	dst.count()
}

// Release gives the memory back: the series must not be asked any more.
func (c *Counted) Release() {
	c.values = nil
	free.Put(c)
}

// At fills dst with the order statistics at some places of the sorted values, counted from 0
// and mostly rising. It may be asked once.
func (c *Counted) At(dst []float64, places []int) {
	var held [][]float64 // by slot, from 0: the values of the interval
	slots, before := make([]uint16, len(places)), make([]int, len(places))
	b, below := 0, 0
	for i, k := range places {
		if k < below {
			b, below = 0, 0
		}
		for below+int(c.counts[b]) <= k {
			below += int(c.counts[b])
			b++
		}
		switch {
		case b == atLeast:
			dst[i] = c.least
			continue
		case b == atMost:
			dst[i] = c.most
			continue
		}
		if c.slot[b] == 0 {
			held = append(held, make([]float64, 0, c.counts[b]))
			c.slot[b] = uint16(len(held))
		}
		slots[i], before[i] = c.slot[b], below
	}
	if len(held) > 0 {
		c.hold(held)
	}
	for i, k := range places {
		if slots[i] > 0 {
			dst[i] = held[slots[i]-1][k-before[i]]
		}
	}
}

// hold collects and sorts the values of the intervals that have a slot.
func (c *Counted) hold(held [][]float64) {
	values := c.values[:len(c.at)]
	for i, b := range c.at {
		if slot := c.slot[b%intervals]; slot > 0 {
			held[slot-1] = append(held[slot-1], values[i])
		}
	}
	for _, inside := range held {
		slices.Sort(inside)
	}
}
