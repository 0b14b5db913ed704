package main

import (
	"fmt"
	"io"
	"os"
	"os/signal"
	"runtime"
	"strings"
	"syscall"

	"fencerow/io/file"
	"fencerow/sim/parallel"
)

// output is the standard output. It keeps its first failure.
type output struct {
	io.Writer
	failed error
}

// Write writes and keeps the first error.
func (o *output) Write(p []byte) (int, error) {
	n, err := o.Writer.Write(p)
	if err != nil && o.failed == nil {
		o.failed = err
	}
	return n, err
}

// reportVariable names the environment variable with the file that a fault of the program
// is written to; without it nothing is.
const reportVariable = "FENCEROW_FAULT_REPORT"

// faulted ends a run in which the program itself failed: one line, no trace, and the
// report where it is asked for.
func faulted(fault *parallel.Fault, args []string, stderr io.Writer) int {
	line, _, _ := strings.Cut(fault.Error(), "\n")
	fmt.Fprintf(stderr, "fencerow: error: a fault of the program: %s\n", line)
	place := os.Getenv(reportVariable)
	if place == "" {
		fmt.Fprintf(stderr, "fencerow: hint: run it again with %s=FILE set, read that file, and report it with the command\n", reportVariable)
		return exitFault
	}
	err := file.NewRun().Keep(true).Write(place, func(w io.Writer) error {
		_, err := fmt.Fprintf(w, "fencerow %s, %s, %s/%s\nfencerow %s\n%s\n\n%s", version, runtime.Version(), runtime.GOOS, runtime.GOARCH, strings.Join(args, " "), fault.Error(), fault.Stack)
		return err
	})
	if err != nil {
		fmt.Fprintf(stderr, "fencerow: warning: no report: %v\nfencerow: hint: set %s to a new file and run it again\n", err, reportVariable)
		return exitFault
	}
	fmt.Fprintf(stderr, "fencerow: hint: read %s, which holds your command line, and report it\n", place)
	return exitFault
}

// endOnInterrupt ends the program at Ctrl-C or a request to end, without half of a file.
// A command that ends by them in its own way takes the signals with signal.Reset.
func endOnInterrupt(stderr io.Writer) {
	signals := make(chan os.Signal, 1)
	signal.Notify(signals, os.Interrupt, syscall.SIGTERM)
	go func() {
		<-signals
		file.Abandon()
		fmt.Fprintln(stderr, "fencerow: interrupted; no file is half written. A batch goes on with --resume")
		os.Exit(exitRefused)
	}()
}
