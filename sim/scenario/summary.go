package scenario

import (
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Summary describes a series over all draws.
type Summary struct {
	odds.Summary
	Percentiles       odds.Percentiles
	Errors            odds.Percentiles // standard errors of percentiles
	PayingError       float64          // standard error of paying
	Paying, AtMaximum float64          // shares of draws above zero, and at the most there can be
	Maximum           float64          // the most there can be in any draw
}

// SummaryOf describes payments; maximum is the most there can be, most that of each
// draw where it differs, else nil.
func (b *Buffers) SummaryOf(values []float64, maximum float64, most []float64) Summary {
	s := b.Describe(values)
	s.Maximum = maximum
	full := 0
	for i, x := range values {
		limit := maximum
		if most != nil {
			limit = most[i]
			s.Maximum = max(s.Maximum, limit)
		}
		if x > 0 && x >= limit-crop.Noise {
			full++
		}
	}
	s.AtMaximum = float64(full) / float64(len(values))
	return s
}

// Describe is shapeOf without what asks for the most there can be.
func (b *Buffers) Describe(values []float64) Summary {
	s := Summary{Summary: b.Summarize(values)}
	s.Percentiles, s.Errors = b.Percentiles(values)
	s.Paying, s.PayingError = b.chance(values, func(x float64) bool { return x > 0 })
	return s
}

// Times is the shape of the same series with every value multiplied.
func (s Summary) Times(by float64) Summary {
	s.Mean, s.StandardError, s.SD, s.Maximum = by*s.Mean, by*s.StandardError, by*s.SD, by*s.Maximum
	for i := range s.Percentiles {
		s.Percentiles[i] *= by
		s.Errors[i] *= by
	}
	return s
}
