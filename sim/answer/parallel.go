package answer

import (
	"runtime"
	"sync"
)

// sideBySide is inParallel, or one after the other where a question is brief: then it is
// one of many that are asked side by side.
func sideBySide(brief bool, n int, do func(i int)) {
	if !brief {
		inParallel(n, do)
		return
	}
	for i := range n {
		do(i)
	}
}

// inParallel calls do for 0 to n-1 on all cores. The order in which results are
// made does not matter: each goes to its own place.
func inParallel(n int, do func(i int)) {
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
