package sound

import (
	"flag"
	"fmt"
	"time"
)

// mostTime is how long one input may keep the processor.
const mostTime = 2 * time.Second

// mostWait is how long one input may take by the clock: a processor may have more to do, and
// what sleeps takes none of it.
const mostWait = 60 * time.Second

// Soon runs a function. While inputs are searched for (go test -fuzz) it panics in a function that
// takes more than 2 seconds of the processor or a minute, which the search keeps as a failure.
// In a plain test it only runs it: no test holds a clock.
func Soon(run func()) {
	worker := flag.Lookup("test.fuzzworker")
	if worker == nil || worker.Value.String() != "true" {
		run()
		return
	}
	done := make(chan struct{})
	go watch(done)
	defer close(done)
	run()
}

func watch(done chan struct{}) {
	began, used := time.Now(), processorTime()
	for {
		select {
		case <-done:
			return
		case <-time.After(mostTime / 4):
		}
		took, waited := processorTime()-used, time.Since(began)
		if took > mostTime || waited > mostWait {
			panic(fmt.Sprintf("sound: one input has taken %v of the processor and %v in all", took, waited))
		}
	}
}
