package cells

import (
	"errors"
	"fmt"
	"math"
)

// FormulaValues are what formulas come to, by place: a float64 or a string.
type FormulaValues map[Place]any

// Number is the number at a place, 0 where a text or nothing is.
func (v FormulaValues) Number(at Place) float64 {
	x, _ := v[at].(float64)
	return x
}

// Evaluate works out every formula, so that a program that only reads the file
// sees the figures. It knows what package workbook writes and no more: the operators of
// parse.go and the functions of functions.go. A test holds it against the library's own,
// which would make the program a third larger, and one against LibreOffice.
func Evaluate(sheets []*Sheet) (FormulaValues, error) {
	e := &evaluator{sheets: map[string]*Sheet{}, names: map[string]Place{}, found: FormulaValues{}, open: map[Place]bool{}, sorted: map[area][]float64{}}
	for _, s := range sheets {
		e.sheets[s.Title] = s
		for name, at := range s.Names {
			e.names[name] = at
		}
	}
	for _, s := range sheets {
		for at := range s.Formulas() {
			x := e.at(at)
			if e.err != nil {
				return nil, fmt.Errorf("workbook: %s: %w", at.Absolute(), e.err)
			}
			if failed, is := x.(failure); is {
				return nil, fmt.Errorf("workbook: %s: it comes to %s", at.Absolute(), string(failed))
			}
		}
	}
	return e.found, nil
}

// Formulas goes through the places of all formulas.
func (s *Sheet) Formulas() func(yield func(Place) bool) {
	return func(yield func(Place) bool) {
		for r, row := range s.Rows {
			for c, cell := range row {
				if cell.Formula != "" && !yield(Place{s, c + 1, r + 1}) {
					return
				}
			}
		}
	}
}

// evaluator works out formulas, each once. What it finds at a place is a float64, a
// string, nil where nothing stands, or a failure.
type evaluator struct {
	sheets map[string]*Sheet
	names  map[string]Place
	found  FormulaValues
	open   map[Place]bool // being worked out
	sorted map[area][]float64
	err    error // the first that is no value but a mistake of ours
}

// failure is what a spreadsheet shows in place of a value, "#N/A".
type failure string

// The failures.
const (
	notFound  = failure("#N/A")
	badValue  = failure("#VALUE!")
	byZero    = failure("#DIV/0!")
	badNumber = failure("#NUM!")
)

var errCircle = errors.New("a formula needs its own outcome")

// at returns what stands at a place.
func (e *evaluator) at(p Place) any {
	c := p.Cell()
	if c.Formula == "" {
		return c.Value
	}
	if x, done := e.found[p]; done {
		return x
	}
	if e.open[p] {
		e.fail(errCircle)
	}
	if e.err != nil {
		return badValue
	}
	e.open[p] = true
	defer delete(e.open, p)
	parsed, err := parse(e, p.On, c.Formula)
	if err != nil {
		e.fail(err)
		return badValue
	}
	x := parsed()
	switch number, is := x.(float64); {
	case x == nil:
		x = 0.0 // a formula that leads to a blank is 0
	case is && (math.IsNaN(number) || math.IsInf(number, 0)):
		x = badNumber
	}
	e.found[p] = x
	return x
}

// fail keeps the first mistake.
func (e *evaluator) fail(err error) {
	if e.err == nil {
		e.err = err
	}
}

// Cell is what stands at a place, the zero cell where nothing does.
func (p Place) Cell() Cell {
	if p.Row > len(p.On.Rows) || p.Column > len(p.On.Rows[p.Row-1]) {
		return Cell{}
	}
	return p.On.Rows[p.Row-1][p.Column-1]
}
