package odds

import (
	"math"
	"slices"
)

// CostOfWrongPick returns the expected opportunity loss of a program against another
// one, in the unit of the values: the mean of what the other pays more, in the
// scenarios in which it does. The slices are paired by scenario.
//
//	cost = mean(max(0, other - pick))
func CostOfWrongPick(pick, other []float64) float64 {
	less := 0.0
	for i := range pick {
		less += max(0, other[i]-pick[i])
	}
	return less / float64(len(pick))
}

// MeanOfWorst returns the average of the lowest share of values, in their unit:
// the lower conditional value at risk. The last value counts for the part of it
// that falls within the share. NaN of none.
//
// Source: R. T. Rockafellar and S. Uryasev, Journal of Risk 2 (2000), 21-41.
func MeanOfWorst(values []float64, share float64) float64 {
	if len(values) == 0 {
		return math.NaN()
	}
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	wanted := share * float64(len(sorted))
	whole := min(int(wanted), len(sorted))
	total := sum(sorted[:whole])
	if whole < len(sorted) {
		total += (wanted - float64(whole)) * sorted[whole]
	}
	return total / wanted
}

// SureAmount returns the sure amount that someone of constant relative risk
// aversion r holds worth the same as the uncertain amounts on top of wealth, in
// their unit: the certainty equivalent. NaN where wealth and an amount together
// are not above zero and r is not 0.
//
//	(mean (wealth + x)^(1-r))^(1/(1-r)) - wealth;  r = 1: exp mean ln(wealth + x) - wealth
func SureAmount(values []float64, wealth, r float64) float64 {
	if r == 0 {
		return Mean(values)
	}
	center := wealth + Mean(values) // keeps the powers near one
	power := make([]float64, len(values))
	for i, x := range values {
		relative := (wealth + x) / center
		switch {
		case relative <= 0 || center <= 0:
			return math.NaN()
		case r == 1:
			power[i] = math.Log(relative)
		default:
			power[i] = math.Pow(relative, 1-r)
		}
	}
	mean := Mean(power)
	if r == 1 {
		return center*math.Exp(mean) - wealth
	}
	return center*math.Pow(mean, 1/(1-r)) - wealth
}

// SureAmountAbsolute returns SureAmount for constant absolute risk aversion k, per
// unit of the values, above 0. Wealth does not matter.
//
//	-ln(mean exp(-k x)) / k
func SureAmountAbsolute(values []float64, k float64) float64 {
	least := slices.Min(values) // keeps the powers from overflowing
	power := make([]float64, len(values))
	for i, x := range values {
		power[i] = math.Exp(-k * (x - least))
	}
	return least - math.Log(Mean(power))/k
}

// Dominates reports whether a stochastically dominates b. First order: each quantile
// of a is at least that of b, less tolerance, so everyone who wants more prefers a.
// With averse, second order: so is the mean of the lowest values at every share, and
// everyone averse to risk prefers a. Equal lengths.
func Dominates(a, b []float64, averse bool, tolerance float64) bool {
	a, b = slices.Clone(a), slices.Clone(b)
	slices.Sort(a)
	slices.Sort(b)
	sumA, sumB := 0.0, 0.0
	for i := range a {
		if averse {
			sumA, sumB = sumA+a[i], sumB+b[i]
			if (sumA-sumB)/float64(i+1) < -tolerance {
				return false
			}
			continue
		}
		if a[i] < b[i]-tolerance {
			return false
		}
	}
	return true
}
