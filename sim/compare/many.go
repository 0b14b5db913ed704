package compare

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Many answers the same question for one operation after the other. Prices and county
// yields are drawn once for all; no farm's scenarios depend on another farm, so every
// operation gets the figures that Answer gives it. Several goroutines may use it.
type Many struct{ run *run }

// NewMany prepares a question; of its operation only the close margin is used.
func NewMany(c answer.Question) *Many { return &Many{newRun(c)} }

// Compare answers for one operation: for the crop years of the question, else those of
// the operation, else the one of the day; with the operation's close margin, else the
// question's.
func (m *Many) Compare(o farm.Operation) (answer.Comparison, error) { return m.of(o).answer() }

// Anew is the same question on scenarios that are made anew, in memory of their own; what
// was worked out of counties and prices stays. The figures are the same.
func (m *Many) Anew() *Many {
	return &Many{runOn(m.run.question, m.run.paths.Sources, m.run.shared.published)}
}

// of returns the run about one operation, on the shared scenarios.
func (m *Many) of(o farm.Operation) *run {
	p := *m.run
	if o.Settings.CloseMargin == nil {
		o.Settings.CloseMargin = p.question.Operation.Settings.CloseMargin
	}
	p.question.Operation = o
	if len(p.question.CropYears) == 0 {
		p.question.CropYears = o.CropYears
	}
	if len(p.question.CropYears) == 0 {
		p.question.CropYears = []crop.CropYear{p.question.Today.Year()}
	}
	return &p
}
