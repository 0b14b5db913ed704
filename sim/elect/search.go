package elect

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
)

// LeastGain is what a mean must rise by, USD, for an election to be changed.
const LeastGain crop.Money = program.HalfCent

// maxPruned is the number of flips up to which every choice is tried that no cutting
// plane rules out.
const maxPruned = 12

// Choice is a set of flips and what is known of its quality.
type Choice struct {
	Flipped []bool
	Bound   crop.Money // upper bound on the mean of any choice, USD after limits and sequestration
	Exact   bool       // every choice was tried or ruled out
}

// Best returns the choice with the highest mean after limits; flips that gain no more
// than LeastGain are not made. Up to maxTried flips every choice is tried. Beyond that,
// local search begins at the start, at the rounded relaxation and at each known choice,
// and Exact tells whether the result is the highest of all.
func (o *Operation) Best(maxTried int, known ...[]bool) Choice {
	o.start()
	if len(o.Flips) <= maxTried {
		return o.enumerate(make([]float64, len(o.Flips)), nil)
	}
	return o.relaxAndSearch(known)
}

// enumerate tries every choice that no plane rules out. It begins at best, a choice known
// to be good.
func (o *Operation) enumerate(best []float64, planes []cuttingPlane) Choice {
	o.set(best)
	bestMean := o.meanPaid()
	highest, slack := bestMean, o.roundingSlack()
	x := make([]float64, len(o.Flips))
	for mask := range 1 << len(x) {
		for k := range x {
			x[k] = float64(mask >> k & 1)
		}
		if slices.ContainsFunc(planes, func(c cuttingPlane) bool { return c.height(x)+slack <= highest }) {
			continue
		}
		o.set(x)
		mean := o.meanPaid()
		if mean > bestMean+LeastGain {
			best, bestMean = slices.Clone(x), mean
		}
		highest = max(highest, mean)
	}
	o.set(best)
	o.revertUseless(bestMean)
	return Choice{o.flipped(), highest, true}
}

// relaxAndSearch bounds every choice by the relaxation and improves several choices by
// local search; with few flips it then enumerates what the planes leave.
func (o *Operation) relaxAndSearch(known [][]bool) Choice {
	begin := slices.Clone(o.at)
	relaxed, lowest, planes := o.ascend()
	starts := [][]float64{begin, rounded(relaxed)}
	for _, flipped := range known {
		starts = append(starts, asNumbers(flipped))
	}
	best, bestMean := begin, 0.0
	for i, x := range starts {
		o.set(x)
		if mean := o.localSearch(); i == 0 || mean > bestMean+LeastGain {
			best, bestMean = slices.Clone(o.at), mean
		}
	}
	if len(o.Flips) <= maxPruned {
		return o.enumerate(best, planes)
	}
	o.set(best)
	bestMean = o.revertUseless(bestMean)
	return Choice{o.flipped(), max(bestMean, lowest.upperBound()+o.roundingSlack()), false}
}

// rounded returns the choice nearest to x.
func rounded(x []float64) []float64 {
	choice := make([]float64, len(x))
	for k, mixed := range x {
		choice[k] = program.Round(mixed, 0)
	}
	return choice
}

// asNumbers returns 1 for every flip that is made, 0 for the others.
func asNumbers(flipped []bool) []float64 {
	x := make([]float64, len(flipped))
	for k, is := range flipped {
		if is {
			x[k] = 1
		}
	}
	return x
}
