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
	brief    bool // no errors of percentiles are wanted
	distinct int  // outcomes that differ in one crop year where draws repeat them; 0: all
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

// chance is odds.Chance; where draws repeat a few outcomes, its error is that of so
// few.
func (b *buffers) chance(values []float64, counts func(float64) bool) (chance, standard float64) {
	chance, standard = odds.Chance(values, b.draws, counts)
	return chance, b.chanceError(chance, standard)
}

func (b *buffers) chanceError(chance, standard float64) float64 {
	if b.distinct > 0 {
		return math.Sqrt(chance * (1 - chance) / float64(b.distinct))
	}
	return standard
}

// tells reports whether a percentile is not further out than one outcome, where draws
// repeat a few.
func (b *buffers) tells(percent int) bool {
	return b.distinct == 0 || min(percent, 100-percent)*b.distinct >= 100
}

// percentiles are odds.PercentilesWithErrors; where draws repeat a few outcomes,
// those further out than one of them are NaN, and so are the errors.
func (b *buffers) percentiles(values []float64) (p, errors odds.Percentiles) {
	if b.brief {
		p = odds.PercentilesOf(values)
	} else {
		p, errors = odds.PercentilesWithErrors(values, b.draws)
	}
	for i, percent := range odds.Percents {
		if b.distinct == 0 {
			continue
		}
		errors[i] = math.NaN()
		if !b.tells(percent) {
			p[i] = math.NaN()
		}
	}
	return p, errors
}
