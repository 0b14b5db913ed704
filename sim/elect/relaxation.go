package elect

import (
	"slices"

	"gonum.org/v1/gonum/floats"

	"fencerow/program/crop"
)

// cuttingPlane is an upper bound on the mean after limits that is linear in the flips x,
// each 0 to 1: level + sum over k of slope[k] x[k], USD.
type cuttingPlane struct {
	level crop.Money
	slope []float64
}

// upperBound returns the highest value of the plane at any x, USD: no choice has a higher
// mean.
func (c cuttingPlane) upperBound() crop.Money {
	highest := c.level
	for _, g := range c.slope {
		highest += max(0, g)
	}
	return highest
}

// height returns the value of the plane at x, USD.
func (c cuttingPlane) height(x []float64) crop.Money { return c.level + floats.Dot(c.slope, x) }

// combination returns (1 - weight) c + weight other, a cutting plane too.
func (c cuttingPlane) combination(other cuttingPlane, weight float64) cuttingPlane {
	both := cuttingPlane{(1-weight)*c.level + weight*other.level, make([]float64, len(c.slope))}
	for k := range both.slope {
		both.slope[k] = (1-weight)*c.slope[k] + weight*other.slope[k]
	}
	return both
}

// lowestCombination returns the combination of two planes with the least upper bound. The
// bound is convex in the weight, so that ternary search finds it.
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
	lowest := c.combination(other, (from+to)/2)
	for _, end := range []cuttingPlane{c, other} {
		if end.upperBound() < lowest.upperBound() {
			lowest = end
		}
	}
	return lowest
}

const (
	ternarySteps = 40   // of the search for a weight: to a ten-millionth
	ascentSteps  = 80   // of supergradient ascent, at most
	relativeGap  = 1e-5 // between bound and mean, as a share of the mean: small enough to stop
)

// ascend is supergradient ascent on the relaxation, in which every flip may be mixed from
// 0 to 1. It returns the x with the highest mean found, the lowest combination of the
// planes (its upperBound bounds every choice), and a plane for each step.
//
// A step follows in turn the supergradient at x and the slope of the lowest plane, scaled
// so that flips of much money move less. Its length is Polyak's, aimed halfway from the
// highest mean to the bound.
func (o *Operation) ascend() (best []float64, lowest cuttingPlane, planes []cuttingPlane) {
	x := slices.Clone(o.at)
	highestMean := -1.0
	size := o.meanMoneyMoved()
	for step := range ascentSteps {
		here, mean := o.planeAt(x)
		planes = append(planes, here)
		if step == 0 {
			lowest = here
		} else {
			lowest = lowest.lowestCombination(here)
		}
		if mean > highestMean {
			best, highestMean = slices.Clone(x), mean
		}
		if lowest.upperBound()-highestMean <= relativeGap*highestMean {
			break
		}
		direction := lowest.slope
		if step%2 == 0 {
			direction = here.slope
		}
		if !stepToward(x, direction, size, (highestMean+lowest.upperBound())/2-mean) {
			break
		}
	}
	return best, lowest, planes
}

// stepToward moves x along slope, each flip divided by the square of its size, as far as
// would raise a linear mean by rise (USD), and cuts it off at 0 and 1. It reports whether
// x could move.
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

// meanMoneyMoved returns, by flip, the payments that begin and those that end with it,
// USD on average before limits.
func (o *Operation) meanMoneyMoved() []float64 {
	means := make([]float64, len(o.routes.all))
	for i, r := range o.routes.all {
		means[i] = floats.Norm(r.series, 1) / float64(len(r.series))
	}
	all := make([]float64, len(o.Flips))
	for k, stakes := range o.routes.byFlip {
		for _, s := range stakes {
			all[k] += max(s.share, -s.share) * means[s.route]
		}
	}
	return all
}
