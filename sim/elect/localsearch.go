package elect

import (
	"cmp"
	"slices"

	"fencerow/program/crop"
)

// localSearch is the local search: it makes flips, one at a time and then two at a time,
// as long as the average after limits rises, and returns it. The supergradient says
// what a flip can bring at most, so that only those that can bring a rise are tried.
func (o *Operation) localSearch() (mean crop.Money) {
	mean = o.meanPaid()
	for {
		before := mean
		if mean = o.flipOne(mean); mean > before {
			continue
		}
		if mean = o.flipTwo(mean); mean == before {
			return mean
		}
	}
}

// potentialGain is the most that a flip can bring, USD on average.
type potentialGain struct {
	flip int
	rise crop.Money
}

// potentialGains lists the flips, those first that can bring most.
func (o *Operation) potentialGains() (all []potentialGain) {
	slope := make([]float64, len(o.Flips))
	o.supergradient(slope)
	for k, g := range slope {
		all = append(all, potentialGain{k, g * (1 - 2*o.at[k])})
	}
	slices.SortStableFunc(all, func(a, b potentialGain) int { return cmp.Compare(b.rise, a.rise) })
	return all
}

// flipOne makes each flip that raises the average.
func (o *Operation) flipOne(mean crop.Money) crop.Money {
	for _, p := range o.potentialGains() {
		if p.rise <= LeastGain {
			break
		}
		o.flip(p.flip)
		if now := o.meanPaid(); now > mean+LeastGain {
			mean = now
			continue
		}
		o.flip(p.flip)
	}
	return mean
}

// maxPairs is the number of pairs of flips that are tried before one is made.
const maxPairs = 400

// flipTwo makes the first two flips that raise the average together, of those that can
// bring most.
func (o *Operation) flipTwo(mean crop.Money) crop.Money {
	tried := 0
	all := o.potentialGains()
	for i, first := range all {
		o.flip(first.flip)
		for _, second := range all[i+1:] {
			if first.rise+second.rise <= LeastGain || tried == maxPairs {
				break
			}
			tried++
			o.flip(second.flip)
			if now := o.meanPaid(); now > mean+LeastGain {
				return now
			}
			o.flip(second.flip)
		}
		o.flip(first.flip)
		if tried == maxPairs {
			break
		}
	}
	return mean
}

// revertUseless takes back every flip that brings nothing, and returns the average.
func (o *Operation) revertUseless(mean crop.Money) crop.Money {
	least := mean - sameWithin
	for k := range o.Flips {
		if o.at[k] < 0.5 {
			continue
		}
		o.flip(k)
		if now := o.meanPaid(); now >= least {
			mean = now
			continue
		}
		o.flip(k)
	}
	return mean
}

// sameWithin is what two averages that are the same may differ by, USD.
const sameWithin crop.Money = 1e-6
