package scores

import (
	"math"
	"slices"
)

// PIT returns the probability integral transform of an observation: the share of
// scenarios below it and half of those equal. Over many observations of a true
// distribution it is uniform.
func PIT(values []float64, observed float64) float64 {
	below, equal := 0, 0
	for _, x := range values {
		switch {
		case x < observed:
			below++
		case x == observed:
			equal++
		}
	}
	return (float64(below) + float64(equal)/2) / float64(len(values))
}

// CRPS returns the continuous ranked probability score of values by
// scenario, in their unit:
// smaller is better, and of a known figure it is the absolute error.
//
//	CRPS = E|X - y| - E|X - X'|/2
//
// Source: T. Gneiting, F. Balabdaoui and A. E. Raftery, Journal of the Royal
// Statistical Society B 69 (2007), 243-268.
func CRPS(values []float64, observed float64) float64 {
	sorted := slices.Clone(values)
	slices.Sort(sorted)
	n, off, apart := float64(len(sorted)), 0.0, 0.0
	for i, x := range sorted {
		off += math.Abs(x - observed)
		apart += (2*float64(i) + 1 - n) * x // of all pairs, twice
	}
	return off/n - apart/(n*n)
}

// Brier returns the Brier score of a chance: its squared distance from 1 where the
// event came, from 0 where it did not. Smaller is better.
func Brier(chance float64, came bool) float64 {
	if came {
		chance = 1 - chance
	}
	return chance * chance
}
