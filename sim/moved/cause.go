package moved

import (
	"slices"

	"fencerow/sim/answer"
)

// line is a farm, crop and crop year as one answer has it.
type line[L any] interface {
	SameAs(other L) bool // no figure that is shown has moved
	Lead() string
}

// Told is one line in all answers that are needed to say what moved it.
type Told[L line[L]] struct {
	Before, After L                  // as the two answers have it
	Base          L                  // the first question asked of this program
	Alone         map[answer.Cause]L // the first question with one kind of input from the second; without lines that it lacks
	Differ        []answer.Cause     // kinds of which the two have other inputs
	Program       answer.Cause       // what another version of fencerow is put down to: answer.CauseLaw or answer.CauseProgram; "": it is the same
}

// askable are the kinds of which one alone can be changed and the question asked again.
var askable = []answer.Cause{answer.CausePrice, answer.CauseCounty, answer.CauseRecord, answer.CauseSettings}

// Cause returns what moved a line, the kinds that move it by themselves, and those that
// by themselves give it the second answer's lead. A flip is put down to the one kind that
// alone flips it; a line that keeps its lead to the one kind that alone moves it. Where
// another version of fencerow moves the line, the other kinds are asked of that version,
// so that none of them can be said to flip it alone.
func (t Told[L]) Cause() (cause answer.Cause, moves, flips []answer.Cause) {
	flipped := t.Before.Lead() != t.After.Lead()
	weigh := func(k answer.Cause, from, to L) {
		if from.SameAs(to) {
			return
		}
		if flipped && to.Lead() == t.After.Lead() && (len(moves) == 0 || moves[0] != t.Program) {
			flips = append(flips, k)
		}
		moves = append(moves, k)
	}
	weigh(t.Program, t.Before, t.Base)
	for _, k := range askable {
		if to, asked := t.Alone[k]; asked && slices.Contains(t.Differ, k) {
			weigh(k, t.Base, to)
		}
	}
	decide := moves
	if flipped {
		decide = flips
	}
	if len(decide) == 1 {
		return decide[0], moves, flips
	}
	if len(moves) == 0 { // only together do they move it
		moves = t.Differ
	}
	return answer.CauseJoint, moves, flips
}
