package answer

import (
	"math"
	"sync"

	"fencerow/sim/odds"
)

// buffers are series of all draws that are used again: in a short run, fresh
// memory costs more than the arithmetic done in it.
type buffers struct {
	mutex    sync.Mutex
	draws    odds.Draws
	distinct int // outcomes that differ in one crop year where draws repeat them; 0: all
	free     [][]float64
}

// take returns a series with any content; give it back when done.
func (b *buffers) take() []float64 {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if last := len(b.free) - 1; last >= 0 {
		series := b.free[last]
		b.free = b.free[:last]
		return series
	}
	return make([]float64, b.draws.N())
}

// zeros returns a series of zeros.
func (b *buffers) zeros() []float64 {
	series := b.take()
	clear(series)
	return series
}

// give takes series back; nothing may use them any more. Nil ones are left.
func (b *buffers) give(all ...[]float64) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	for _, series := range all {
		if series != nil {
			b.free = append(b.free, series)
		}
	}
}

// summarize is odds.Summarize; where draws repeat a few outcomes, the error of the
// mean is that of so few.
func (b *buffers) summarize(values []float64) odds.Summary {
	s := odds.Summarize(values, b.draws)
	if b.distinct > 0 {
		s.StandardError = s.SD / math.Sqrt(float64(b.distinct))
	}
	return s
}

// chanceError is the standard error of a chance, by the spread of the replicates;
// where draws repeat a few outcomes, that of so few.
func (b *buffers) chanceError(values []float64, counts func(float64) bool) float64 {
	chance, standard := odds.Chance(values, b.draws, counts)
	if b.distinct > 0 {
		return math.Sqrt(chance * (1 - chance) / float64(b.distinct))
	}
	return standard
}

// percentileErrors are those of percentiles; NaN where draws repeat a few outcomes.
func (b *buffers) percentileErrors(values []float64) odds.Percentiles {
	errors := odds.PercentileErrors(values, b.draws)
	if b.distinct > 0 {
		for i := range errors {
			errors[i] = math.NaN()
		}
	}
	return errors
}

// percentiles is odds.PercentilesOf; where draws repeat a few outcomes, those
// further out than one of them are NaN.
func (b *buffers) percentiles(values []float64) odds.Percentiles {
	p := odds.PercentilesOf(values)
	for i, percent := range odds.Percents {
		if b.distinct > 0 && min(percent, 100-percent)*b.distinct < 100 {
			p[i] = math.NaN()
		}
	}
	return p
}
