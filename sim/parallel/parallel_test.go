package parallel_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"sync/atomic"
	"testing"

	"fencerow/sim/parallel"
)

// Each result goes to its own place, whatever the order in which they are made.
func ExampleDo() {
	squares := make([]int, 5)
	parallel.Do(len(squares), func(i int) { squares[i] = i * i })
	fmt.Println(squares)
	// Output: [0 1 4 9 16]
}

// Everything is done once, and nothing where there is nothing to do; a brief question is
// worked out in order.
func TestEachOnce(t *testing.T) {
	for _, n := range []int{0, 1, 1000} {
		calls := make([]atomic.Int32, n)
		parallel.Do(n, func(i int) { calls[i].Add(1) })
		for i := range calls {
			if got := calls[i].Load(); got != 1 {
				t.Errorf("%d of %d was done %d times", i, n, got)
			}
		}
	}
	var order []int
	parallel.DoUnless(true, 4, func(i int) { order = append(order, i) })
	if !slices.Equal(order, []int{0, 1, 2, 3}) {
		t.Errorf("a brief question is worked out in the order %v", order)
	}
}

// A panic of a worker reaches the caller as a Fault, and the rest is left out.
func TestPanicReachesTheCaller(t *testing.T) {
	var done atomic.Int32
	err := parallel.Try(func() error {
		parallel.Do(1000, func(i int) {
			if i == 3 {
				panic("no such county")
			}
			done.Add(1)
		})
		return nil
	})
	var fault *parallel.Fault
	if !errors.As(err, &fault) || fault.Value != "no such county" || !strings.Contains(fault.Stack, "parallel_test.go") {
		t.Errorf("the caller has %v", err)
	}
	if done.Load() > 999 {
		t.Error("the rest was not left out")
	}
	if err := parallel.Try(func() error { return errors.ErrUnsupported }); err != errors.ErrUnsupported {
		t.Error(err)
	}
}

// What is started beside the caller is waited for, and may be asked again.
func TestStart(t *testing.T) {
	wait := parallel.Start(func() error { panic("here") })
	var fault *parallel.Fault
	if err := wait(); !errors.As(err, &fault) || wait() != err {
		t.Errorf("%v, then %v", err, wait())
	}
	if n, err := parallel.TryFor(func() (int, error) { return 7, nil }); n != 7 || err != nil {
		t.Error(n, err)
	}
}
