package parallel

import (
	"fmt"
	"runtime"
	"runtime/debug"
	"sync"
	"sync/atomic"
)

// DoUnless is inParallel, or one after the other where a question is brief: then it is
// one of many that are asked side by side.
func DoUnless(brief bool, n int, do func(i int)) {
	if !brief {
		Do(n, do)
		return
	}
	for i := range n {
		do(i)
	}
}

// Do calls do for 0 to n-1 on all cores. The order in which results are
// made does not matter: each goes to its own place. Where one of them panics, the rest is
// left out and Do panics with its Fault, so that the caller can recover.
func Do(n int, do func(i int)) {
	next := make(chan int)
	var workers sync.WaitGroup
	var fault atomic.Pointer[Fault]
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := range next {
				if fault.Load() != nil {
					continue
				}
				if one := faultOf(func() { do(i) }); one != nil {
					fault.CompareAndSwap(nil, one)
				}
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	workers.Wait()
	if one := fault.Load(); one != nil {
		panic(one)
	}
}

// Fault is a panic, carried from the goroutine in which it was to the one that waits.
type Fault struct {
	Value any    // of the panic
	Stack string // of the goroutine that panicked
}

func (f *Fault) Error() string { return fmt.Sprint(f.Value) }

// Try calls do and returns its error, or its panic as a *Fault: a goroutine that sends the
// error of Try to whoever waits cannot end the program.
func Try(do func() error) (err error) {
	if fault := faultOf(func() { err = do() }); fault != nil {
		return fault
	}
	return err
}

// Start begins do beside the caller. Its result, called once or often, waits for the end and
// returns what Try does.
func Start(do func() error) (wait func() error) {
	done := make(chan struct{})
	var err error
	go func() {
		defer close(done)
		err = Try(do)
	}()
	return func() error {
		<-done
		return err
	}
}

// TryFor is Try of what also has a value.
func TryFor[T any](do func() (T, error)) (value T, err error) {
	err = Try(func() (err error) {
		value, err = do()
		return err
	})
	return value, err
}

// faultOf returns the panic of do, nil where there is none.
func faultOf(do func()) (fault *Fault) {
	defer func() {
		switch value := recover().(type) {
		case nil:
		case *Fault: // of workers inside
			fault = value
		default:
			fault = &Fault{value, string(debug.Stack())}
		}
	}()
	do()
	return nil
}

// Ahead begins do beside the caller, to have ready what is asked for later. Its panic is
// left to whoever asks: it is for functions made by package sync's Once, which panic again.
func Ahead(do func()) { go faultOf(do) }
