package cells

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"fencerow/program"
)

// FormulaValues are what formulas come to, by place.
type FormulaValues map[Place]float64

// Evaluate works out every formula, so that a program that only reads the file
// sees the figures. It knows the arithmetic that this package writes and no more: four
// operations, comparison by >, and the functions of functions. A test holds it against
// the library's own, which would make the program a third larger.
func Evaluate(sheets []*Sheet) (FormulaValues, error) {
	e := &evaluator{sheets: map[string]*Sheet{}, names: map[string]Place{}, found: FormulaValues{}, open: map[Place]bool{}}
	for _, s := range sheets {
		e.sheets[s.Title] = s
		for name, at := range s.Names {
			e.names[name] = at
		}
	}
	for _, s := range sheets {
		for at := range s.Formulas() {
			if _, err := e.value(at); err != nil {
				return nil, fmt.Errorf("workbook: %s: %w", at.Absolute(), err)
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

// evaluator works out formulas, each once.
type evaluator struct {
	sheets map[string]*Sheet
	names  map[string]Place
	found  FormulaValues
	open   map[Place]bool // being worked out
}

var errCircle = errors.New("a formula needs its own outcome")

// value returns the number at a place; what is blank is 0, what is text an error.
func (e *evaluator) value(at Place) (float64, error) {
	c := at.Cell()
	switch x := c.Value.(type) {
	case float64:
		return x, nil
	case string:
		return 0, fmt.Errorf("%s is the text %q", at.Absolute(), x)
	}
	if x, done := e.found[at]; done || c.Formula == "" {
		return x, nil
	}
	if e.open[at] {
		return 0, errCircle
	}
	e.open[at] = true
	f := formula{evaluator: e, on: at.On, rest: c.Formula}
	x := f.comparison()
	if f.err == nil && f.rest != "" {
		f.fail("%q is left over", f.rest)
	}
	if f.err == nil && (math.IsNaN(x) || math.IsInf(x, 0)) {
		f.fail("it comes to %v", x)
	}
	delete(e.open, at)
	e.found[at] = x
	return x, f.err
}

// Cell is what stands at a place, the zero cell where nothing does.
func (p Place) Cell() Cell {
	if p.Row > len(p.On.Rows) || p.Column > len(p.On.Rows[p.Row-1]) {
		return Cell{}
	}
	return p.On.Rows[p.Row-1][p.Column-1]
}

// formula is a text of a sheet while it is worked out from the left.
type formula struct {
	*evaluator
	on   *Sheet
	rest string
	err  error // the first
}

func (f *formula) fail(format string, args ...any) {
	if f.err == nil {
		f.err = fmt.Errorf(format, args...)
	}
}

// next takes a text if the rest begins with it.
func (f *formula) next(text string) (is bool) {
	f.rest, is = strings.CutPrefix(f.rest, text)
	return is
}

// comparison is 1 where it holds, else 0; a sum where nothing is compared.
func (f *formula) comparison() float64 {
	x := f.sum()
	if !f.next(">") {
		return x
	}
	if x > f.sum() {
		return 1
	}
	return 0
}

func (f *formula) sum() float64 {
	x := f.product()
	for {
		switch {
		case f.next("+"):
			x += f.product()
		case f.next("-"):
			x -= f.product()
		default:
			return x
		}
	}
}

func (f *formula) product() float64 {
	x := f.factor()
	for {
		switch {
		case f.next("*"):
			x *= f.factor()
		case f.next("/"):
			x /= f.factor()
		default:
			return x
		}
	}
}

var (
	numberForm   = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?`)
	callForm     = regexp.MustCompile(`^[A-Z]+\(`)
	locationForm = regexp.MustCompile(`^(?:'([^']+)'!)?\$?([A-Z]{1,3})\$?([0-9]+)`)
	nameForm     = regexp.MustCompile(`^[a-z_][a-z_0-9]*`)
)

// factor is a number, a name, a place, a call, or what stands in parentheses.
func (f *formula) factor() float64 {
	if f.next("(") {
		x := f.comparison()
		f.close()
		return x
	}
	if text := numberForm.FindString(f.rest); f.next(text) && text != "" {
		x, _ := strconv.ParseFloat(text, 64) // the form is a number's
		return x
	}
	if text := callForm.FindString(f.rest); f.next(text) && text != "" {
		return f.call(strings.TrimSuffix(text, "("))
	}
	if locationForm.MatchString(f.rest) {
		return f.at(f.location(f.on))
	}
	name := nameForm.FindString(f.rest)
	at, known := f.names[name]
	if !known {
		f.fail("%q is not understood", f.rest)
		f.rest = ""
		return 0
	}
	f.next(name)
	return f.at(at)
}

func (f *formula) close() {
	if !f.next(")") {
		f.fail("a parenthesis is not closed before %q", f.rest)
	}
}

// at is the number at a place.
func (f *formula) at(p Place) float64 {
	if f.err != nil {
		return 0
	}
	x, err := f.value(p)
	if err != nil {
		f.fail("%w", err)
	}
	return x
}

// location takes a place of a sheet that may be named before it.
func (f *formula) location(on *Sheet) Place {
	m := locationForm.FindStringSubmatch(f.rest)
	if m == nil {
		f.fail("no place before %q", f.rest)
		return Place{}
	}
	f.next(m[0])
	if m[1] != "" {
		if on = f.sheets[m[1]]; on == nil {
			f.fail("there is no sheet %q", m[1])
			return Place{}
		}
	}
	column, err := excelize.ColumnNameToNumber(m[2])
	row, bad := strconv.Atoi(m[3])
	if err = errors.Join(err, bad); err != nil || row < 1 {
		f.fail("%q is no place", m[0])
		return Place{}
	}
	return Place{on, column, row}
}

// arguments takes those of a call. A span gives its numbers; its blanks and texts do not
// count, as everywhere in spreadsheets.
func (f *formula) arguments() (all []float64) {
	for f.err == nil {
		if head := locationForm.FindString(f.rest); head != "" && strings.HasPrefix(f.rest[len(head):], ":") {
			from := f.location(f.on)
			f.next(":")
			all = append(all, f.span(from, f.location(from.On))...)
		} else {
			all = append(all, f.comparison())
		}
		if !f.next(",") {
			break
		}
	}
	f.close()
	return all
}

func (f *formula) span(from, to Place) (all []float64) {
	for row := from.Row; f.err == nil && row <= to.Row; row++ {
		for column := from.Column; column <= to.Column; column++ {
			if at := (Place{from.On, column, row}); at.Cell().Number() {
				all = append(all, f.at(at))
			}
		}
	}
	return all
}

// functions by name, of the numbers of their arguments. ROUND is program.Round, half up:
// what it lifts a second time is a millionth of a millionth.
var functions = map[string]struct {
	arguments int // at least
	of        func(x []float64) float64
}{
	"ROUND": {2, func(x []float64) float64 { return program.Round(x[0], int(x[1])) }},
	"MIN":   {1, slices.Min[[]float64]},
	"MAX":   {1, slices.Max[[]float64]},
	"SUM": {0, func(x []float64) (sum float64) {
		for _, one := range x {
			sum += one
		}
		return sum
	}},
	"IF": {3, func(x []float64) float64 {
		if x[0] != 0 {
			return x[1]
		}
		return x[2]
	}},
}

func (f *formula) call(name string) float64 {
	function, known := functions[name]
	x := f.arguments()
	switch {
	case f.err != nil:
	case !known:
		f.fail("there is no function %s", name)
	case len(x) < function.arguments:
		f.fail("%s has %d arguments", name, len(x))
	default:
		return function.of(x)
	}
	return 0
}
