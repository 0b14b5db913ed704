package scenario

import (
	"math"
	"sync"

	"fencerow/sim/odds"
)

// Buffers are series by scenario that are used again and again: in a short run, fresh
// memory costs more than the arithmetic done in it.
type Buffers struct {
	mutex         sync.Mutex
	Size          odds.Scenarios // how many scenarios each series has
	withoutErrors bool           // standard errors of percentiles are not wanted
	Distinct      int            // how many scenarios of a crop year differ where they repeat past years; 0: all
	free          [][]float64
	keep          bool // made holds every series, released or not: those of a block (blocks.go)
	made          [][]float64
}

// Acquire returns a series with any content; Release it when done.
func (b *Buffers) Acquire() []float64 {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if last := len(b.free) - 1; last >= 0 {
		series := b.free[last]
		b.free = b.free[:last]
		return series
	}
	series := make([]float64, b.Size.N())
	if b.keep {
		b.made = append(b.made, series)
	}
	return series
}

// Zeros returns a series of zeros.
func (b *Buffers) Zeros() []float64 {
	series := b.Acquire()
	clear(series)
	return series
}

// Release takes series back for use by others: the caller must not use them any more.
// Nil ones are skipped.
func (b *Buffers) Release(all ...[]float64) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	for _, series := range all {
		if series != nil {
			b.free = append(b.free, series)
		}
	}
}

// Summarize returns odds.Summarize; where only Distinct scenarios differ, the standard
// error of the mean is that of so few.
func (b *Buffers) Summarize(values []float64) odds.Summary {
	s := odds.Summarize(values, b.Size)
	if b.Distinct > 0 {
		s.StandardError = s.SD / math.Sqrt(float64(b.Distinct))
	}
	return s
}

// chance returns odds.Chance, with ChanceError.
func (b *Buffers) chance(values []float64, counts func(float64) bool) (chance, standard float64) {
	chance, standard = odds.Chance(values, b.Size, counts)
	return chance, b.ChanceError(chance, standard)
}

// ChanceError returns the standard error of a chance: standard, or where only Distinct
// scenarios differ, that of so few.
func (b *Buffers) ChanceError(chance, standard float64) float64 {
	if b.Distinct > 0 {
		return math.Sqrt(chance * (1 - chance) / float64(b.Distinct))
	}
	return standard
}

// Resolves reports whether a percentile can be given: where only Distinct scenarios
// differ, one further out than a single scenario cannot.
func (b *Buffers) Resolves(percent int) bool {
	return b.Distinct == 0 || min(percent, 100-percent)*b.Distinct >= 100
}

// Percentiles returns odds.PercentilesWithErrors; where only Distinct scenarios
// differ, errors are NaN, and so are percentiles that it does not resolve.
func (b *Buffers) Percentiles(values []float64) (p, errors odds.Percentiles) {
	if b.withoutErrors {
		return b.resolved(odds.PercentilesOf(values), errors)
	}
	return b.resolved(odds.PercentilesWithErrors(values, b.Size))
}

// PercentilesAlone returns Percentiles without their errors.
func (b *Buffers) PercentilesAlone(values []float64) (p odds.Percentiles) {
	p, _ = b.resolved(odds.PercentilesOf(values), odds.Percentiles{})
	return p
}

// resolved leaves out what so few scenarios as Distinct do not resolve.
func (b *Buffers) resolved(p, errors odds.Percentiles) (odds.Percentiles, odds.Percentiles) {
	for i, percent := range odds.Percents {
		if b.Distinct == 0 {
			continue
		}
		errors[i] = math.NaN()
		if !b.Resolves(percent) {
			p[i] = math.NaN()
		}
	}
	return p, errors
}

// Cases returns odds.CasesOf; nil where so few scenarios differ that the outermost cannot
// be given.
func (b *Buffers) Cases(values []float64) []float64 {
	const outermost = 1
	if !b.Resolves(outermost) {
		return nil
	}
	return odds.CasesOf(values)
}

// SumOf returns the sum of a series, with the rounding of odds.Mean.
func SumOf(series []float64) float64 { return odds.Mean(series) * float64(len(series)) }

// AddScaled adds weight times x to dst.
func AddScaled(dst []float64, weight float64, x []float64) {
	for i, v := range x {
		dst[i] += weight * v
	}
}
