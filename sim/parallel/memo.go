package parallel

import (
	"sync"
	"sync/atomic"
)

// Memo remembers values by key: each is made once, when first asked for, and a failure is
// remembered as well. Several goroutines may use it; one value may be made of others.
type Memo[K comparable, V any] struct {
	mutex  sync.RWMutex
	values map[K]*made[V]
}

// made is a value that is made, or about to be.
type made[V any] struct {
	once  sync.Once
	ready atomic.Bool // the value stands
	value V
	err   error
}

// Get returns the value of a key and makes it where it is not there yet.
func (m *Memo[K, V]) Get(key K, make func() (V, error)) (V, error) {
	one := m.of(key)
	one.once.Do(func() {
		one.value, one.err = make()
		one.ready.Store(true)
	})
	return one.value, one.err
}

// Of is Get of a value that cannot fail.
func (m *Memo[K, V]) Of(key K, make func() V) V {
	one := m.of(key)
	one.once.Do(func() {
		one.value = make()
		one.ready.Store(true)
	})
	return one.value
}

// Known returns the value of a key that was made before. Callers who ask very often ask it
// first: what makes a value, and all that it needs, is then not set up for nothing.
func (m *Memo[K, V]) Known(key K) (value V, known bool) {
	m.mutex.RLock()
	one, known := m.values[key]
	m.mutex.RUnlock()
	if known = known && one.ready.Load(); known {
		value = one.value
	}
	return value, known
}

// of returns the place of a key, new where there is none.
func (m *Memo[K, V]) of(key K) *made[V] {
	m.mutex.RLock()
	one, known := m.values[key]
	m.mutex.RUnlock()
	if known {
		return one
	}
	m.mutex.Lock()
	defer m.mutex.Unlock()
	if one, known = m.values[key]; known {
		return one
	}
	if m.values == nil {
		m.values = map[K]*made[V]{}
	}
	one = &made[V]{}
	m.values[key] = one
	return one
}
