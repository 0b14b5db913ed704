//go:build unix

package sound

import (
	"syscall"
	"time"
)

// processorTime is how long this process has kept the processor.
func processorTime() time.Duration {
	var used syscall.Rusage
	if err := syscall.Getrusage(syscall.RUSAGE_SELF, &used); err != nil {
		return 0
	}
	return time.Duration(used.Utime.Nano())
}
