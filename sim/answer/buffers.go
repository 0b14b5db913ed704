package answer

import (
	"sync"

	"fencerow/sim/odds"
)

// buffers are series of all draws that are used again: in a short run, fresh
// memory costs more than the arithmetic done in it.
type buffers struct {
	mutex sync.Mutex
	draws odds.Draws
	free  [][]float64
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
