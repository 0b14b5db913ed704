package parallel_test

import (
	"errors"
	"sync"
	"sync/atomic"
	"testing"

	"fencerow/sim/parallel"
)

// A value is made once, however many ask at the same time, and all get the same.
func TestMemoMakesOnce(t *testing.T) {
	const keys, askers = 5, 64
	var memo parallel.Memo[int, *int]
	var made atomic.Int32
	var wait sync.WaitGroup
	got := make([]*int, keys*askers)
	for i := range got {
		wait.Add(1)
		go func() {
			defer wait.Done()
			got[i] = memo.Of(i%keys, func() *int { made.Add(1); return new(int) })
		}()
	}
	wait.Wait()
	if made.Load() != keys {
		t.Errorf("%d values made for %d keys", made.Load(), keys)
	}
	for i, one := range got {
		if one == nil || one != got[i%keys] {
			t.Errorf("asker %d of key %d got another value", i, i%keys)
		}
	}
}

// A failure is remembered as well as a value.
func TestMemoRemembersFailure(t *testing.T) {
	var memo parallel.Memo[string, int]
	calls := 0
	fail := func() (int, error) { calls++; return 0, errors.New("no figures") }
	for range 2 {
		if _, err := memo.Get("corn", fail); err == nil {
			t.Error("no error")
		}
	}
	if calls != 1 {
		t.Errorf("tried %d times", calls)
	}
}
