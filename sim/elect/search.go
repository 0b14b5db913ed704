package elect

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
)

// LeastGain is the least an average must rise, USD, for an election to be changed.
const LeastGain crop.Money = program.HalfCent

// maxPruned is the number of flips up to which every choice that no cutting plane
// rules out is tried.
const maxPruned = 12

// Choice is which flips are made, and how good that is known to be.
type Choice struct {
	Flipped []bool
	Bound   crop.Money // no choice averages more after limits, USD
	Exact   bool       // every choice was tried or ruled out
}

// Best returns the choice that averages most after limits; among equals the start
// wins. Up to most flips every choice is tried. Other choices that are known may be
// given: the search begins at them too.
func (o *Operation) Best(most int, known ...[]bool) Choice {
	o.start()
	if len(o.Flips) <= most {
		return o.enumerate(make([]float64, len(o.Flips)), nil)
	}
	return o.relaxAndSearch(known)
}

// enumerate tries every choice that some plane does not rule out, from one that is
// known to be good.
func (o *Operation) enumerate(best []float64, planes []cuttingPlane) Choice {
	o.set(best)
	bestMean := o.meanPaid()
	highest, rounding := bestMean, o.roundingSlack()
	x := make([]float64, len(o.Flips))
	for mask := range 1 << len(x) {
		for k := range x {
			x[k] = float64(mask >> k & 1)
		}
		if slices.ContainsFunc(planes, func(c cuttingPlane) bool { return c.height(x)+rounding <= highest }) {
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

// relaxAndSearch is for operations too large to try every choice. The ascent over shares of
// programs bounds every choice; whole choices are improved by local search from the
// start, from the best shares rounded, and from those known.
func (o *Operation) relaxAndSearch(known [][]bool) Choice {
	begin := slices.Clone(o.at)
	shares, lowest, planes := o.ascend()
	starts := [][]float64{begin, rounded(shares)}
	for _, flipped := range known {
		starts = append(starts, asNumbers(flipped))
	}
	best, bestMean := begin, 0.0
	for i, from := range starts {
		o.set(from)
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

func rounded(x []float64) []float64 {
	whole := make([]float64, len(x))
	for k, share := range x {
		whole[k] = program.Round(share, 0)
	}
	return whole
}

func asNumbers(flipped []bool) []float64 {
	x := make([]float64, len(flipped))
	for k, is := range flipped {
		if is {
			x[k] = 1
		}
	}
	return x
}
