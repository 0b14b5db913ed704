package odds

import (
	"math"
	"slices"
)

// PIT returns where an observation lies among the draws: the share below it and
// half of those equal. Over many observations of a true distribution it is
// uniform.
func PIT(draws []float64, observed float64) float64 {
	below, equal := 0, 0
	for _, x := range draws {
		switch {
		case x < observed:
			below++
		case x == observed:
			equal++
		}
	}
	return (float64(below) + float64(equal)/2) / float64(len(draws))
}

// CRPS returns the continuous ranked probability score of draws, in their unit:
// smaller is better, and of a known figure it is the absolute error.
//
//	CRPS = E|X - y| - E|X - X'|/2
//
// Source: T. Gneiting, F. Balabdaoui and A. E. Raftery, Journal of the Royal
// Statistical Society B 69 (2007), 243-268.
func CRPS(draws []float64, observed float64) float64 {
	sorted := slices.Clone(draws)
	slices.Sort(sorted)
	n, off, apart := float64(len(sorted)), 0.0, 0.0
	for i, x := range sorted {
		off += math.Abs(x - observed)
		apart += (2*float64(i) + 1 - n) * x // of all pairs, twice
	}
	return off/n - apart/(n*n)
}

// Brier returns the score of a chance of something that came true or not: the
// squared distance of the chance from 1 or 0.
func Brier(chance float64, came bool) float64 {
	if came {
		chance = 1 - chance
	}
	return chance * chance
}
