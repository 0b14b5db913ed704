package elect

import (
	"cmp"
	"slices"

	"fencerow/program/crop"
)

// localSearch improves the present choice by single flips, then by pairs of flips, until
// neither raises the mean after limits by more than LeastGain, and returns the mean, USD.
// It tries only flips whose potential gain is large enough.
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

// potentialGain is an upper bound on what a flip adds to the mean, USD, from the
// supergradient at the present choice.
type potentialGain struct {
	flip int
	rise crop.Money
}

// potentialGains returns those of all flips, the largest first.
func (o *Operation) potentialGains() (all []potentialGain) {
	slope, off := make([]float64, len(o.Flips)), make([]float64, len(o.Flips))
	o.supergradient(slope, off)
	for k, g := range slope {
		all = append(all, potentialGain{k, g * (1 - 2*o.at[k])})
	}
	slices.SortStableFunc(all, func(a, b potentialGain) int { return cmp.Compare(b.rise, a.rise) })
	return all
}

// flipOne makes every flip that raises the mean, one after the other, and returns the
// mean, USD.
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

// maxPairs is how many pairs of flips are tried before the search ends.
const maxPairs = 400

// flipTwo makes the first pair of flips found to raise the mean, the pairs of largest
// potential gain tried first, and returns the mean, USD.
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

// revertUseless takes back every flip without which the mean is no lower, so that the
// choice stays as near to the start as it can, and returns the mean, USD.
func (o *Operation) revertUseless(mean crop.Money) crop.Money {
	least := mean - sameWithin
	for k := range o.Flips {
		if o.at[k] < half {
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

// sameWithin is what two equal means may differ by in floating-point arithmetic, USD.
const sameWithin crop.Money = 1e-6
