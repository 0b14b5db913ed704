package answer

import (
	"slices"

	"gonum.org/v1/gonum/floats"

	"fencerow/program/crop"
)

// cut is a plane that lies nowhere below the average after limits: at x it is
// level + sum over k of slope[k] x[k].
type cut struct {
	level crop.Money
	slope []float64
}

// top is the most that a cut allows anywhere, USD: no choice averages more.
func (c cut) top() crop.Money {
	top := c.level
	for _, g := range c.slope {
		top += max(0, g)
	}
	return top
}

// at is the height of the cut.
func (c cut) at(x []float64) crop.Money { return c.level + floats.Dot(c.slope, x) }

// mixed is the cut between c and other: their average in parts is no lower than the
// average after limits either.
func (c cut) mixed(other cut, part float64) cut {
	both := cut{(1-part)*c.level + part*other.level, make([]float64, len(c.slope))}
	for k := range both.slope {
		both.slope[k] = (1-part)*c.slope[k] + part*other.slope[k]
	}
	return both
}

// lowest is the mixture of two cuts that allows the least. Its top is convex in the
// part of each, so that thirds close in on it.
func (c cut) lowest(other cut) cut {
	from, to := 0.0, 1.0
	for range thirds {
		left, right := from+(to-from)/3, to-(to-from)/3
		if c.mixed(other, left).top() <= c.mixed(other, right).top() {
			to = right
		} else {
			from = left
		}
	}
	best := c.mixed(other, (from+to)/2)
	for _, end := range []cut{c, other} {
		if end.top() < best.top() {
			best = end
		}
	}
	return best
}

const (
	thirds     = 40   // steps that narrow a mixture down to a ten-millionth
	climbSteps = 80   // steps uphill over shares of programs
	nearEnough = 1e-5 // of the average: closer to its bound there is nothing left to climb
)

// uphill seeks the highest average over shares of both programs, where a farm could
// split each commodity between them, and returns the best shares found and a cut
// whose top bounds every choice. Each step goes along the slopes where the shares
// stand, then along those of the lowest cut, by turns; a lever that moves much money
// goes less far. It is as long as would reach halfway to the bound if slopes held.
func (l *ledger) uphill() (best []float64, lowest cut, cuts []cut) {
	n := len(l.levers)
	x, slope := slices.Clone(l.pushed), make([]float64, n)
	bestAverage := -1.0
	size := l.sizes()
	for step := range climbSteps {
		l.set(x)
		average := l.slopes(slope)
		here := cut{average - floats.Dot(slope, x), slices.Clone(slope)}
		cuts = append(cuts, here)
		if step == 0 {
			lowest = here
		} else {
			lowest = lowest.lowest(here)
		}
		if average > bestAverage {
			best, bestAverage = slices.Clone(x), average
		}
		if lowest.top()-bestAverage <= nearEnough*bestAverage {
			break
		}
		toward := lowest.slope
		if step%2 == 0 {
			toward = slope
		}
		if !stepToward(x, toward, size, (bestAverage+lowest.top())/2-average) {
			break
		}
	}
	return best, lowest, cuts
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

// sizes is the money that each lever moves on average, USD.
func (l *ledger) sizes() []float64 {
	all := make([]float64, len(l.levers))
	for k, turn := range l.levers {
		for _, c := range turn {
			mean := floats.Norm(c.series, 1) / float64(len(c.series))
			for _, p := range c.parts {
				all[k] += max(p.share, -p.share) * mean
			}
		}
	}
	return all
}
