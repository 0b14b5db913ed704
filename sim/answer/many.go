package answer

import "fencerow/program/farm"

// Many answers the same question for one operation after the other. Prices and
// county yields are drawn once for all: what a farm draws does not depend on the
// others, so every operation gets the figures that Compare gives it. Several
// goroutines may use it.
type Many struct{ shared *paths }

// NewMany prepares a question; the operation of the case is not used.
func NewMany(c Case) *Many { return &Many{newPaths(c)} }

// Compare answers for one operation.
func (m *Many) Compare(o farm.Operation) (Comparison, error) {
	p := *m.shared
	p.Operation = o
	return p.compare()
}
