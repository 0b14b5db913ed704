package scenario

import (
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Summary describes a payment over all scenarios, in its unit.
type Summary struct {
	odds.Summary
	Percentiles       odds.Percentiles
	Errors            odds.Percentiles // standard errors of percentiles
	PayingError       float64          // standard error of Paying
	Paying, AtMaximum float64          // shares of scenarios above zero, and at the most that the program can pay in them
	Maximum           float64          // the most that the program can pay in any scenario
}

// SummaryOf describes payments by scenario; maximum is the most that the program can
// pay. Where that differs by scenario, maxima has it for each, else it is nil.
func (b *Buffers) SummaryOf(values []float64, maximum float64, maxima []float64) Summary {
	s := b.Describe(values)
	s.Maximum = maximum
	full := 0
	for i, x := range values {
		limit := maximum
		if maxima != nil {
			limit = maxima[i]
			s.Maximum = max(s.Maximum, limit)
		}
		if x > 0 && x >= limit-crop.Noise {
			full++
		}
	}
	s.AtMaximum = float64(full) / float64(len(values))
	return s
}

// Describe returns SummaryOf without AtMaximum and Maximum.
func (b *Buffers) Describe(values []float64) Summary {
	s := Summary{Summary: b.Summarize(values)}
	s.Percentiles, s.Errors = b.Percentiles(values)
	s.Paying, s.PayingError = b.chance(values, func(x float64) bool { return x > 0 })
	return s
}

// Times returns the summary of the same series with every value multiplied.
func (s Summary) Times(by float64) Summary {
	s.Mean, s.StandardError, s.SD, s.Maximum = by*s.Mean, by*s.StandardError, by*s.SD, by*s.Maximum
	for i := range s.Percentiles {
		s.Percentiles[i] *= by
		s.Errors[i] *= by
	}
	return s
}
