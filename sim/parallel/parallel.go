package parallel

import (
	"runtime"
	"sync"
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
// made does not matter: each goes to its own place.
func Do(n int, do func(i int)) {
	next := make(chan int)
	var workers sync.WaitGroup
	for range min(n, runtime.GOMAXPROCS(0)) {
		workers.Go(func() {
			for i := range next {
				do(i)
			}
		})
	}
	for i := range n {
		next <- i
	}
	close(next)
	workers.Wait()
}
