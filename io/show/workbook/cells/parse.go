package cells

import (
	"errors"
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"
)

// expression is a part of a formula: it comes to a float64, a string, nil for a blank, a
// failure, or an area.
type expression func() any

// area is a range of cells.
type area struct{ from, to Place }

// parser reads a formula from the left.
type parser struct {
	*evaluator
	on   *Sheet
	rest string
	err  error // the first
}

// parse reads a whole formula of a sheet.
func parse(e *evaluator, on *Sheet, text string) (expression, error) {
	p := parser{evaluator: e, on: on, rest: text}
	x := p.comparison()
	if p.err == nil && p.rest != "" {
		p.wrong("%q is left over", p.rest)
	}
	return x, p.err
}

func (p *parser) wrong(format string, args ...any) expression {
	if p.err == nil {
		p.err = fmt.Errorf(format, args...)
	}
	return func() any { return badValue }
}

// next takes a text if the rest begins with it.
func (p *parser) next(text string) (is bool) {
	p.rest, is = strings.CutPrefix(p.rest, text)
	return is
}

// comparison is 1 where it holds, else 0; a text or sum where nothing is compared.
func (p *parser) comparison() expression {
	left := p.joined()
	for _, sign := range []string{"<>", "<=", ">=", "=", "<", ">"} {
		if p.next(sign) {
			right := p.joined()
			return func() any { return compared(sign, left(), right()) }
		}
	}
	return left
}

// joined is a text of several, or one value.
func (p *parser) joined() expression {
	x := p.sum()
	for p.next("&") {
		left, right := x, p.sum()
		x = func() any { return joinedText(left(), right()) }
	}
	return x
}

func (p *parser) sum() expression {
	x := p.product()
	for {
		switch {
		case p.next("+"):
			x = both(x, p.product(), func(a, b float64) any { return a + b })
		case p.next("-"):
			x = both(x, p.product(), func(a, b float64) any { return a - b })
		default:
			return x
		}
	}
}

func (p *parser) product() expression {
	x := p.factor()
	for {
		switch {
		case p.next("*"):
			x = both(x, p.factor(), func(a, b float64) any { return a * b })
		case p.next("/"):
			x = both(x, p.factor(), func(a, b float64) any {
				if b == 0 {
					return byZero
				}
				return a / b
			})
		default:
			return x
		}
	}
}

// both works on two numbers.
func both(left, right expression, do func(a, b float64) any) expression {
	return func() any {
		a, fault := numberOf(left())
		if fault != "" {
			return fault
		}
		b, fault := numberOf(right())
		if fault != "" {
			return fault
		}
		return do(a, b)
	}
}

var (
	numberForm   = regexp.MustCompile(`^[0-9]+(\.[0-9]+)?`)
	textForm     = regexp.MustCompile(`^"(?:[^"]|"")*"`)
	callForm     = regexp.MustCompile(`^[A-Z]+\(`)
	locationForm = regexp.MustCompile(`^(?:'([^']+)'!)?\$?([A-Z]{1,3})\$?([0-9]+)`)
	nameForm     = regexp.MustCompile(`^[a-z_][a-z_0-9]*`)
)

// factor is a number, a text, a name, a place or range, a call, or what stands in
// parentheses.
func (p *parser) factor() expression {
	switch {
	case p.next("-"):
		return both(func() any { return 0.0 }, p.factor(), func(a, b float64) any { return a - b })
	case p.next("("):
		x := p.comparison()
		p.close()
		return x
	}
	if text := numberForm.FindString(p.rest); text != "" && p.next(text) {
		x, _ := strconv.ParseFloat(text, 64) // the form is a number's
		return func() any { return x }
	}
	if text := textForm.FindString(p.rest); text != "" && p.next(text) {
		said := strings.ReplaceAll(text[1:len(text)-1], `""`, `"`)
		return func() any { return said }
	}
	if text := callForm.FindString(p.rest); text != "" && p.next(text) {
		return p.call(strings.TrimSuffix(text, "("))
	}
	if locationForm.MatchString(p.rest) {
		return p.reference()
	}
	name := nameForm.FindString(p.rest)
	at, known := p.names[name]
	if !known {
		return p.wrong("%q is not understood", p.rest)
	}
	p.next(name)
	return func() any { return p.at(at) }
}

func (p *parser) close() {
	if !p.next(")") {
		p.wrong("a parenthesis is not closed before %q", p.rest)
	}
}

// reference is a place or a range.
func (p *parser) reference() expression {
	from := p.location(p.on)
	if !p.next(":") {
		return func() any { return p.at(from) }
	}
	to := p.location(from.On)
	return func() any { return area{from, to} }
}

// location takes a place of a sheet that may be named before it.
func (p *parser) location(on *Sheet) Place {
	m := locationForm.FindStringSubmatch(p.rest)
	if m == nil {
		p.wrong("no place before %q", p.rest)
		return Place{}
	}
	p.next(m[0])
	if m[1] != "" {
		if on = p.sheets[m[1]]; on == nil {
			p.wrong("there is no sheet %q", m[1])
			return Place{}
		}
	}
	column, err := excelize.ColumnNameToNumber(m[2])
	row, bad := strconv.Atoi(m[3])
	if err = errors.Join(err, bad); err != nil || row < 1 {
		p.wrong("%q is no place", m[0])
		return Place{}
	}
	return Place{on, column, row}
}

// call takes the arguments of a function.
func (p *parser) call(name string) expression {
	var arguments []expression
	for p.err == nil && !strings.HasPrefix(p.rest, ")") {
		arguments = append(arguments, p.comparison())
		if !p.next(",") {
			break
		}
	}
	p.close()
	function, known := functions[name]
	switch {
	case p.err != nil:
		return p.wrong("")
	case !known:
		return p.wrong("there is no function %s", name)
	case len(arguments) < function.arguments:
		return p.wrong("%s has %d arguments", name, len(arguments))
	}
	return func() any { return function.of(p.evaluator, arguments) }
}
