package terminal

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"sync"
	"time"
	"unicode/utf8"

	"fencerow/program"
)

// Progress is a bar on a terminal; elsewhere it is nothing, so that logs stay
// readable. Several goroutines may use it.
type Progress struct{ bar *bar }

// bar is one line that is written over again and again.
type bar struct {
	mutex sync.Mutex
	w     io.Writer
	steps int
	what  string
	rate  bool // with the rate and the time left
	begun time.Time
	last  time.Time // when it was last written
	width int       // of what stands on the line
}

// NewProgress begins a bar of steps with a word for what is done.
func NewProgress(w io.Writer, steps int, what string) Progress {
	return begin(w, &bar{steps: steps, what: what})
}

// NewRowProgress is a bar over rows that tells the rate and the time left.
func NewRowProgress(w io.Writer, rows int) Progress {
	return begin(w, &bar{steps: rows, what: "rows", rate: true})
}

func begin(w io.Writer, b *bar) Progress {
	if !onTerminal(w) {
		return Progress{}
	}
	b.w, b.begun = w, time.Now()
	return Progress{b}
}

// Reach moves the bar to a step. A terminal that does not take it is no fault.
func (p Progress) Reach(step int) {
	if p.bar != nil {
		p.bar.reach(step, time.Now())
	}
}

// Done takes the bar away.
func (p Progress) Done() {
	if p.bar != nil {
		p.bar.mutex.Lock()
		defer p.bar.mutex.Unlock()
		p.bar.put("")
	}
}

// seldom is how often the line is written at most.
const seldom = 100 * time.Millisecond

func (b *bar) reach(step int, now time.Time) {
	b.mutex.Lock()
	defer b.mutex.Unlock()
	if now.Sub(b.last) < seldom {
		return
	}
	b.last = now
	b.put(b.line(step, now.Sub(b.begun)))
}

// put writes a line over the one before.
func (b *bar) put(line string) {
	width := utf8.RuneCountInString(line)
	fmt.Fprint(b.w, "\r"+line+strings.Repeat(" ", max(0, b.width-width))+"\r"+line)
	b.width = width
}

// line is the bar at a step after some time.
func (b *bar) line(step int, spent time.Duration) string {
	const wide, all = 30, 100
	step = max(0, min(step, b.steps))
	full := wide * step / max(1, b.steps)
	text := fmt.Sprintf("fencerow: %s %3d%% [%s%s]", b.what, all*step/max(1, b.steps), strings.Repeat("=", full), strings.Repeat(" ", wide-full))
	if !b.rate || step == 0 || spent <= 0 {
		return text
	}
	left := time.Duration(float64(spent) / float64(step) * float64(b.steps-step))
	return text + fmt.Sprintf(" %d of %d, %s a second, %s left", step, b.steps, program.Text(float64(step)/spent.Seconds(), 0), left.Round(time.Second))
}

// onTerminal reports whether what is written is seen at once by a person.
func onTerminal(w io.Writer) bool {
	file, is := w.(interface{ Stat() (fs.FileInfo, error) }) // an *os.File, or Plain before one
	if !is {
		return false
	}
	info, err := file.Stat()
	return err == nil && info.Mode()&os.ModeCharDevice != 0
}
