package terminal

import (
	"io"
	"os"

	"github.com/schollz/progressbar/v3"
)

// Progress is a bar on a terminal; elsewhere it is nothing, so that logs stay
// readable.
type Progress struct{ bar *progressbar.ProgressBar }

// NewProgress begins a bar of steps with a word for what is done.
func NewProgress(w io.Writer, steps int, what string) Progress {
	return bar(w, steps, what, progressbar.OptionSetPredictTime(false))
}

// NewRowProgress is a bar over rows that tells the rate and the time left.
func NewRowProgress(w io.Writer, rows int) Progress {
	return bar(w, rows, "rows", progressbar.OptionShowIts(), progressbar.OptionSetItsString("rows"), progressbar.OptionSetPredictTime(true))
}

func bar(w io.Writer, steps int, what string, more ...progressbar.Option) Progress {
	if !onTerminal(w) {
		return Progress{}
	}
	options := []progressbar.Option{progressbar.OptionSetWriter(w), progressbar.OptionSetDescription("fencerow: " + what), progressbar.OptionSetWidth(30), progressbar.OptionClearOnFinish()}
	return Progress{progressbar.NewOptions(steps, append(options, more...)...)}
}

// Reach moves the bar to a step. A terminal that does not take it is no fault.
func (p Progress) Reach(step int) {
	if p.bar != nil {
		_ = p.bar.Set(step)
	}
}

// Done takes the bar away.
func (p Progress) Done() {
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
