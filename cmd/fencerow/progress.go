package main

import (
	"io"
	"os"

	"github.com/schollz/progressbar/v3"
)

// progress is a bar on a terminal; elsewhere it is nothing, so that logs stay
// readable.
type progress struct{ bar *progressbar.ProgressBar }

// newProgress begins a bar of steps with a word for what is done.
func newProgress(w io.Writer, steps int, what string) progress {
	return bar(w, steps, what, progressbar.OptionSetPredictTime(false))
}

// newRowProgress is a bar over rows that tells the rate and the time left.
func newRowProgress(w io.Writer, rows int) progress {
	return bar(w, rows, "rows", progressbar.OptionShowIts(), progressbar.OptionSetItsString("rows"), progressbar.OptionSetPredictTime(true))
}

func bar(w io.Writer, steps int, what string, more ...progressbar.Option) progress {
	if !onTerminal(w) {
		return progress{}
	}
	options := []progressbar.Option{progressbar.OptionSetWriter(w), progressbar.OptionSetDescription("fencerow: " + what), progressbar.OptionSetWidth(30), progressbar.OptionClearOnFinish()}
	return progress{progressbar.NewOptions(steps, append(options, more...)...)}
}

// reach moves the bar to a step. A terminal that does not take it is no fault.
func (p progress) reach(step int) {
	if p.bar != nil {
		_ = p.bar.Set(step)
	}
}

// done takes the bar away.
func (p progress) done() {
	if p.bar != nil {
		_ = p.bar.Finish()
	}
}

// onTerminal reports whether what is written is seen at once by a person.
func onTerminal(w io.Writer) bool {
	file, is := w.(*os.File)
	if !is {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
