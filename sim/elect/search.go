package elect

import (
	"slices"

	"gonum.org/v1/gonum/floats"

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
	if len(o.Flips) > maxTried {
		return o.relaxAndSearch(known)
	}
	start := make([]float64, len(o.Flips))
	if len(o.Flips) < fewestPruned {
		return o.enumerate(start, nil, 0)
	}
	return o.enumerate(start, o.firstPlanes(), farBelow)
}

// fewestPruned is the number of flips from which on planes are made before every choice is
// tried: they cost about as much as four choices.
const fewestPruned = 4

// farBelow is how far below a known mean a plane must be, USD, for a choice to be left out
// where every other is tried: so much that nearly equal choices are weighed against each
// other as if none were left out.
const farBelow crop.Money = 1

// firstPlanes returns planes at the start, where most of the choice often lies, and at the
// choice that the first of them promises most for, and their lowest combination.
func (o *Operation) firstPlanes() []cuttingPlane {
	x := make([]float64, len(o.Flips))
	first, _ := o.planeAt(x)
	for k, g := range first.slope {
		if g > 0 {
			x[k] = 1
		}
	}
	second, _ := o.planeAt(x)
	return []cuttingPlane{first, second, first.lowestCombination(second)}
}

// planeAt goes to x, each 0 to 1, and returns the plane there and the mean, USD.
func (o *Operation) planeAt(x []float64) (plane cuttingPlane, mean crop.Money) {
	o.set(x)
	slope, off := make([]float64, len(x)), make([]float64, len(x))
	mean = o.supergradient(slope, off)
	level := mean - floats.Dot(slope, x)
	floats.Add(slope, off)
	return cuttingPlane{level, slope}, mean
}

// enumerate tries every choice that no plane rules out by as much as margin, USD. It begins
// at best, a choice known to be good.
func (o *Operation) enumerate(best []float64, planes []cuttingPlane, margin crop.Money) Choice {
	o.set(best)
	bestMean := o.meanPaid()
	highest, slack := bestMean, o.roundingSlack()
	x := make([]float64, len(o.Flips))
	for mask := range 1 << len(x) {
		for k := range x {
			x[k] = float64(mask >> k & 1)
		}
		if slices.ContainsFunc(planes, func(c cuttingPlane) bool { return c.height(x)+slack+margin <= highest }) {
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
		return o.enumerate(best, planes, 0)
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
