package answer

import (
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// shape describes a series over all draws.
type shape struct {
	odds.Summary
	percentiles  odds.Percentiles
	errors       odds.Percentiles // standard errors of percentiles
	payingError  float64          // standard error of paying
	paying, full float64          // shares of draws above zero, and at the most there can be
	maximum      float64          // the most there can be in any draw
}

// shapeOf describes payments; maximum is the most there can be, most that of each
// draw where it differs, else nil.
func (b *buffers) shapeOf(values []float64, maximum float64, most []float64) shape {
	s := b.describe(values)
	s.maximum = maximum
	full := 0
	for i, x := range values {
		limit := maximum
		if most != nil {
			limit = most[i]
			s.maximum = max(s.maximum, limit)
		}
		if x > 0 && x >= limit-crop.Noise {
			full++
		}
	}
	s.full = float64(full) / float64(len(values))
	return s
}

// describe is shapeOf without what asks for the most there can be.
func (b *buffers) describe(values []float64) shape {
	s := shape{Summary: b.summarize(values)}
	s.percentiles, s.errors = b.percentiles(values)
	s.paying, s.payingError = b.chance(values, func(x float64) bool { return x > 0 })
	return s
}

// times is the shape of the same series with every value multiplied.
func (s shape) times(by float64) shape {
	s.Mean, s.StandardError, s.SD, s.maximum = by*s.Mean, by*s.StandardError, by*s.SD, by*s.maximum
	for i := range s.percentiles {
		s.percentiles[i] *= by
		s.errors[i] *= by
	}
	return s
}

// ProgramFigures is the shape for the JSON.
func ProgramFigures(s shape) *ProgramPart {
	p := &ProgramPart{
		Mean: Dollars(s.Mean), StandardError: Dollars(s.StandardError), SD: Dollars(s.SD), Maximum: Dollars(s.maximum),
		ChanceOfPayment: Chance(s.paying), ChanceOfMaximum: Chance(s.full), Percentiles: Percentiles(s.percentiles),
		ChanceError: Chance(s.payingError), PercentileErrors: Percentiles(s.errors),
	}
	if s.paying > 0 {
		p.MeanWhenPaying = dollars(s.Mean / s.paying)
	}
	return p
}
