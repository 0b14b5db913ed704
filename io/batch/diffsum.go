package batch

import (
	"math"

	"fencerow/io/batch/sorted"
	"fencerow/sim/answer"
)

// diffFormat names the JSON of Difference.
const diffFormat = "fencerow/batch-diff/1"

// Difference is what Diff found, summed up.
type Difference struct {
	Format  string         `json:"format"` // fencerow/batch-diff/1
	Before  DiffRun        `json:"before"`
	After   DiffRun        `json:"after"`
	Inputs  []answer.Cause `json:"inputs_changed"` // kinds of inputs in which the runs differ
	InBoth  int            `json:"lines_in_both"`
	Moved   int            `json:"moved"`     // lines of both runs with other figures, flipped ones among them
	Flipped int            `json:"flipped"`   // lines of both runs with another lead
	USD     answer.Dollars `json:"usd_moved"` // ARC-CO less PLC on all base acres of these lines, after less before
	Causes  []DiffCause    `json:"causes"`
	OnlyOne [2]int         `json:"only_in_one"` // lines that the first run alone has, and the second
	Largest []DiffLine     `json:"largest"`     // the lines that moved most, in USD
	largest sorted.Top[DiffLine]
	sums    map[answer.Cause]*DiffCause
}

// DiffRun says which run a folder holds.
type DiffRun struct {
	Folder  string `json:"folder"`
	Today   string `json:"today"`
	Market  string `json:"market_as_of"`
	Version string `json:"version"`
}

// DiffCause sums up the lines that are put down to one kind of input.
type DiffCause struct {
	Cause   answer.Cause   `json:"cause"`
	Flipped int            `json:"flipped"`
	Moved   int            `json:"moved"`
	USD     answer.Dollars `json:"usd_moved"`
}

// shownLargest is how many of the lines that moved most are named.
const shownLargest = 10

func newDifference(before, after *pastRun) Difference {
	of := func(r *pastRun) DiffRun { return DiffRun{r.path, r.Today, r.audit.Market, r.Version} }
	return Difference{Format: diffFormat, Before: of(before), After: of(after), Inputs: append([]answer.Cause{}, differing(before, after)...), Causes: []DiffCause{}, Largest: []DiffLine{}, sums: map[answer.Cause]*DiffCause{}}
}

// add adds a line that moved.
func (d *Difference) add(line DiffLine) {
	switch line.Cause {
	case onlyInBefore:
		d.OnlyOne[0]++
		return
	case onlyInAfter:
		d.OnlyOne[1]++
		return
	}
	c := d.sums[line.Cause]
	if c == nil {
		c = &DiffCause{Cause: line.Cause}
		d.sums[line.Cause] = c
	}
	c.Moved, d.Moved = c.Moved+1, d.Moved+1
	if line.Flipped {
		c.Flipped, d.Flipped = c.Flipped+1, d.Flipped+1
	}
	if line.Moved != nil {
		c.USD, d.USD = c.USD+*line.Moved, d.USD+*line.Moved
		d.largest.Add(math.Abs(float64(*line.Moved)), line, shownLargest)
	}
}

// whole returns the sums with their lists, causes in the order of the kinds.
func (d Difference) whole() Difference {
	for _, k := range []answer.Cause{answer.CausePrice, answer.CauseCounty, answer.CauseLaw, answer.CauseProgram, answer.CauseRecord, answer.CauseSettings, answer.CauseJoint} {
		if c := d.sums[k]; c != nil {
			d.Causes = append(d.Causes, *c)
		}
	}
	for _, v := range d.largest.Lines {
		d.Largest = append(d.Largest, v.Line)
	}
	return d
}
