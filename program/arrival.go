package program

import (
	"slices"

	"fencerow/program/crop"
)

// Interest is the share of a recipient in what another one earns.
type Interest struct {
	Recipient int // place among the recipients
	Share     crop.Share
}

// Reach returns the recipients that what recipient i earns can reach: itself first, then
// its owners through all levels, in the order of Order. Shares sum to 1: for a person 1
// itself; for an entity those of its owners, and of the entity itself the share of owners
// who are not listed.
func (a Attribution) Reach(i int) []Interest {
	reached := []int{i}
	arrived := map[int]crop.Share{i: 1}
	for at := 0; at < len(reached); at++ {
		for _, o := range a.Recipients[reached[at]].Owners {
			if _, known := arrived[o.Recipient]; !known {
				arrived[o.Recipient], reached = 0, append(reached, o.Recipient)
			}
		}
	}
	slices.SortFunc(reached, func(x, y int) int { return a.rank[x] - a.rank[y] })
	var all []Interest
	for _, k := range reached {
		r := &a.Recipients[k]
		for _, o := range r.Owners {
			arrived[o.Recipient] += o.Share * arrived[k]
		}
		all = append(all, Interest{k, arrived[k] * r.Rest})
	}
	return all
}

// Arrive is the first half of Trace for many scenarios at once: arrived[i] is, by scenario,
// what recipient i earned itself, and what reaches it through entities is added. Only the
// recipients of order matter, which stand as in Order, with all that they own. within is
// scratch memory of the length of a series. All is USD as for Trace.
func (a Attribution) Arrive(pool LimitPool, order []int, arrived [][]crop.Money, within []crop.Money) {
	for _, i := range order {
		r := &a.Recipients[i]
		if len(r.Owners) == 0 {
			continue
		}
		room := r.Room(pool)
		for s, money := range arrived[i] {
			within[s] = min(money, room)
		}
		for _, o := range r.Owners {
			addShare(arrived[o.Recipient], o.Share, within)
		}
	}
}

// AddStaying is the second half: it adds to dst, by scenario, what stays with recipient i
// of what arrived, after all limits.
func (a Attribution) AddStaying(pool LimitPool, i int, dst, arrived []crop.Money) {
	r := &a.Recipients[i]
	rest, room, restRoom := r.Rest, r.Room(pool), r.OthersRoom(pool)
	if r.Barred || rest == 0 {
		return
	}
	dst = dst[:len(arrived)]
	for s, money := range arrived {
		dst[s] += min(min(money, room)*rest, restRoom)
	}
}

// FillWorth is Worth for many scenarios at once: it fills worth[i], by scenario, for the
// recipients of order, with whom all their owners must be.
func (a Attribution) FillWorth(pool LimitPool, order []int, arrived [][]crop.Money, worth [][]crop.Share) {
	for _, i := range slices.Backward(order) { // owners before what they own
		r := &a.Recipients[i]
		rest, room, restRoom := r.Rest, r.Room(pool), r.OthersRoom(pool)
		mine := worth[i]
		clear(mine)
		for s, money := range arrived[i] {
			if money*rest < restRoom {
				mine[s] = rest
			}
		}
		for _, o := range r.Owners {
			addShare(mine, o.Share, worth[o.Recipient])
		}
		for s, money := range arrived[i] {
			if money >= room {
				mine[s] = 0
			}
		}
	}
}

// addShare adds share times x to dst.
func addShare(dst []crop.Money, share crop.Share, x []crop.Money) {
	dst = dst[:len(x)]
	for s, money := range x {
		dst[s] += share * money
	}
}

// lowestFirst is a heap of places.
type lowestFirst []int

// Len is how many there are.
func (h lowestFirst) Len() int { return len(h) }

// Less puts the lower place first.
func (h lowestFirst) Less(i, j int) bool { return h[i] < h[j] }

// Swap changes two over.
func (h lowestFirst) Swap(i, j int) { h[i], h[j] = h[j], h[i] }

// Push puts one at the end.
func (h *lowestFirst) Push(x any) { *h = append(*h, x.(int)) }

// Pop takes the last away.
func (h *lowestFirst) Pop() any {
	last := len(*h) - 1
	x := (*h)[last]
	*h = (*h)[:last]
	return x
}
