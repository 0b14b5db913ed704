package compare

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Many answers the same question for one operation after the other. Prices and
// county yields are drawn once for all: what a farm draws does not depend on the
// others, so every operation gets the figures that Compare gives it. Several
// goroutines may use it.
type Many struct{ run *run }

// NewMany prepares a question; the operation of the case is not used.
func NewMany(c answer.Question) *Many { return &Many{newRun(c)} }

// Answer answers for one operation: for its own crop years where the case has none,
// and for the one of the day where neither has.
func (m *Many) Compare(o farm.Operation) (answer.Comparison, error) { return m.of(o).answer() }

// For is the question about one operation, on the draws that all share.
func (m *Many) of(o farm.Operation) *run {
	p := *m.run
	p.question.Operation = o
	if len(p.question.CropYears) == 0 {
		p.question.CropYears = o.CropYears
	}
	if len(p.question.CropYears) == 0 {
		p.question.CropYears = []crop.CropYear{p.question.Today.Year()}
	}
	return &p
}
