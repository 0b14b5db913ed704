package elect

import (
	"slices"

	"gonum.org/v1/gonum/floats"

	"fencerow/program/crop"
)

// cuttingPlane is a cutting plane: it lies nowhere below the average after limits, and at x it
// is level + sum over k of slope[k] x[k].
type cuttingPlane struct {
	level crop.Money
	slope []float64
}

// upperBound is the most that a plane allows anywhere, USD: an upper bound of every choice.
func (c cuttingPlane) upperBound() crop.Money {
	top := c.level
	for _, g := range c.slope {
		top += max(0, g)
	}
	return top
}

// height is the height of the plane at x.
func (c cuttingPlane) height(x []float64) crop.Money { return c.level + floats.Dot(c.slope, x) }

// combination is the plane between c and other: their average in parts is no lower than the
// average after limits either.
func (c cuttingPlane) combination(other cuttingPlane, part float64) cuttingPlane {
	both := cuttingPlane{(1-part)*c.level + part*other.level, make([]float64, len(c.slope))}
	for k := range both.slope {
		both.slope[k] = (1-part)*c.slope[k] + part*other.slope[k]
	}
	return both
}

// lowestCombination is the mixture of two planes that allows the least. Its top is convex in the
// part of each, so that thirds close in on it.
func (c cuttingPlane) lowestCombination(other cuttingPlane) cuttingPlane {
	from, to := 0.0, 1.0
	for range ternarySteps {
		left, right := from+(to-from)/3, to-(to-from)/3
		if c.combination(other, left).upperBound() <= c.combination(other, right).upperBound() {
			to = right
		} else {
			from = left
		}
	}
	best := c.combination(other, (from+to)/2)
	for _, end := range []cuttingPlane{c, other} {
		if end.upperBound() < best.upperBound() {
			best = end
		}
	}
	return best
}

const (
	ternarySteps = 40   // steps that narrow a mixture down to a ten-millionth
	ascentSteps  = 80   // steps of the ascent over shares of programs
	relativeGap  = 1e-5 // of the average: closer to its bound there is nothing left to climb
)

// ascend seeks the highest average over shares of both programs, where a farm could
// split each commodity between them, and returns the best shares found, a plane whose
// top bounds every choice, and all planes on the way. Each step goes along the slopes where the shares
// stand, then along those of the lowest plane, by turns; a flip that moves much money
// goes less far. It is as long as would reach halfway to the bound if slopes held.
func (o *Operation) ascend() (best []float64, lowest cuttingPlane, planes []cuttingPlane) {
	n := len(o.Flips)
	x, slope := slices.Clone(o.at), make([]float64, n)
	bestAverage := -1.0
	size := o.meanMoneyMoved()
	for step := range ascentSteps {
		o.set(x)
		average := o.supergradient(slope)
		here := cuttingPlane{average - floats.Dot(slope, x), slices.Clone(slope)}
		planes = append(planes, here)
		if step == 0 {
			lowest = here
		} else {
			lowest = lowest.lowestCombination(here)
		}
		if average > bestAverage {
			best, bestAverage = slices.Clone(x), average
		}
		if lowest.upperBound()-bestAverage <= relativeGap*bestAverage {
			break
		}
		toward := lowest.slope
		if step%2 == 0 {
			toward = slope
		}
		if !stepToward(x, toward, size, (bestAverage+lowest.upperBound())/2-average) {
			break
		}
	}
	return best, lowest, planes
}

// stepToward moves x along the slopes within 0 and 1 and reports whether it moved.
func stepToward(x, slope, size []float64, rise crop.Money) bool {
	free := func(k int) bool { return size[k] > 0 && (slope[k] > 0 && x[k] < 1 || slope[k] < 0 && x[k] > 0) }
	square := 0.0
	for k, g := range slope {
		if free(k) {
			square += g * g / (size[k] * size[k])
		}
	}
	if square == 0 || rise <= 0 {
		return false
	}
	for k, g := range slope {
		if free(k) {
			x[k] = min(1, max(0, x[k]+rise/square*g/(size[k]*size[k])))
		}
	}
	return true
}

// meanMoneyMoved is the money that each flip moves on average, USD.
func (o *Operation) meanMoneyMoved() []float64 {
	all := make([]float64, len(o.Flips))
	for k, flip := range o.Flips {
		for _, c := range flip {
			mean := floats.Norm(c.Series, 1) / float64(len(c.Series))
			for _, p := range c.Stakes {
				all[k] += max(p.Share, -p.Share) * mean
			}
		}
	}
	return all
}
