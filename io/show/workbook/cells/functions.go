package cells

import (
	"slices"
	"strconv"
	"strings"

	"fencerow/program"
)

// functions by name. ROUND is program.Round, half up: what it lifts a second time is a
// millionth of a millionth. IF, IFERROR and AND look only at what they need.
var functions map[string]function

type function struct {
	arguments int // at least
	of        func(e *evaluator, x []expression) any
}

func init() {
	functions = map[string]function{
		"ROUND": {2, func(_ *evaluator, x []expression) any {
			return both(x[0], x[1], func(a, b float64) any { return program.Round(a, int(b)) })()
		}},
		"FIXED": {3, func(_ *evaluator, x []expression) any {
			return both(x[0], x[1], func(a, b float64) any { return program.Text(a, int(b)) })()
		}},
		"MIN":     {1, overNumbers(func(all []float64) any { return least(all, slices.Min[[]float64]) })},
		"MAX":     {1, overNumbers(func(all []float64) any { return least(all, slices.Max[[]float64]) })},
		"SUM":     {1, overNumbers(func(all []float64) any { return total(all) })},
		"COUNT":   {1, overNumbers(func(all []float64) any { return float64(len(all)) })},
		"AVERAGE": {1, overNumbers(average)},
		"ABS": {1, func(_ *evaluator, x []expression) any {
			return both(x[0], x[0], func(a, _ float64) any { return max(a, -a) })()
		}},
		"PERCENTILE": {2, percentile},
		"COUNTIF":    {2, countIf},
		"MATCH":      {3, match},
		"INDEX":      {2, index},
		"IF":         {3, choose},
		"IFERROR":    {2, ifError},
		"AND":        {1, and},
		"ISNUMBER":   {1, func(_ *evaluator, x []expression) any { _, is := x[0]().(float64); return truth(is) }},
	}
}

// overNumbers is a function of all numbers of its arguments. A range gives its numbers;
// its blanks and texts do not count, as everywhere in spreadsheets.
func overNumbers(of func(all []float64) any) func(*evaluator, []expression) any {
	return func(e *evaluator, x []expression) any {
		var all []float64
		for _, one := range x {
			switch got := one().(type) {
			case area:
				for _, value := range e.values(got) {
					if failed, is := value.(failure); is {
						return failed
					}
					if number, is := value.(float64); is {
						all = append(all, number)
					}
				}
			default:
				number, fault := numberOf(got)
				if fault != "" {
					return fault
				}
				all = append(all, number)
			}
		}
		return of(all)
	}
}

// values are those of a range, row by row.
func (e *evaluator) values(a area) (all []any) {
	for row := a.from.Row; row <= a.to.Row; row++ {
		for column := a.from.Column; column <= a.to.Column; column++ {
			all = append(all, e.at(Place{a.from.On, column, row}))
		}
	}
	return all
}

// least is the least or highest of the numbers, 0 of none.
func least(all []float64, of func([]float64) float64) any {
	if len(all) == 0 {
		return 0.0
	}
	return of(all)
}

func total(all []float64) (sum float64) {
	for _, one := range all {
		sum += one
	}
	return sum
}

func average(all []float64) any {
	if len(all) == 0 {
		return byZero
	}
	return total(all) / float64(len(all))
}

// percentile lies between the order statistics around (n-1)p, linearly.
func percentile(e *evaluator, x []expression) any {
	of, is := x[0]().(area)
	part, fault := numberOf(x[1]())
	if !is || fault != "" {
		return badValue
	}
	all, has := e.sorted[of]
	if !has {
		for _, value := range e.values(of) {
			if number, is := value.(float64); is {
				all = append(all, number)
			}
		}
		slices.Sort(all)
		e.sorted[of] = all
	}
	if len(all) == 0 {
		return badNumber
	}
	at := part * float64(len(all)-1)
	k := min(int(at), len(all)-1)
	return all[k] + (at-float64(k))*(all[min(k+1, len(all)-1)]-all[k])
}

// countIf counts what equals a value.
func countIf(e *evaluator, x []expression) any {
	of, is := x[0]().(area)
	if !is {
		return badValue
	}
	n, want := 0.0, x[1]()
	for _, value := range e.values(of) {
		if value != nil && compared("=", value, want) == 1.0 {
			n++
		}
	}
	return n
}

// match is the place of a value in a column, from 1; the third argument is 0: equal.
func match(e *evaluator, x []expression) any {
	of, is := x[1]().(area)
	if !is {
		return badValue
	}
	want := x[0]()
	for row := of.from.Row; row <= of.to.Row; row++ {
		if value := e.at(Place{of.from.On, of.from.Column, row}); value != nil && compared("=", value, want) == 1.0 {
			return float64(row - of.from.Row + 1)
		}
	}
	return notFound
}

// index is what stands in a row of a range, and a column where it is given.
func index(e *evaluator, x []expression) any {
	of, is := x[0]().(area)
	row, fault := numberOf(x[1]())
	if !is || fault != "" {
		return badValue
	}
	column := 1.0
	if len(x) > 2 {
		if column, fault = numberOf(x[2]()); fault != "" {
			return fault
		}
	}
	at := Place{of.from.On, of.from.Column + int(column) - 1, of.from.Row + int(row) - 1}
	if row < 1 || column < 1 || at.Row > of.to.Row || at.Column > of.to.Column {
		return failure("#REF!")
	}
	return e.at(at)
}

func choose(_ *evaluator, x []expression) any {
	holds, fault := numberOf(x[0]())
	switch {
	case fault != "":
		return fault
	case holds != 0:
		return x[1]()
	}
	return x[2]()
}

func ifError(_ *evaluator, x []expression) any {
	value := x[0]()
	if _, failed := value.(failure); failed {
		return x[1]()
	}
	return value
}

func and(_ *evaluator, x []expression) any {
	for _, one := range x {
		holds, fault := numberOf(one())
		if fault != "" {
			return fault
		}
		if holds == 0 {
			return 0.0
		}
	}
	return 1.0
}

// numberOf is a value where a number is asked for: a blank is 0, a text a failure.
func numberOf(value any) (float64, failure) {
	switch x := value.(type) {
	case float64:
		return x, ""
	case nil:
		return 0, ""
	case failure:
		return 0, x
	}
	return 0, badValue
}

// compared is 1 where a comparison holds, else 0. Texts are equal whatever their case; a
// blank equals 0 and the empty text; a text is above every number.
func compared(sign string, left, right any) any {
	for _, side := range []any{left, right} {
		if failed, is := side.(failure); is {
			return failed
		}
	}
	order := 0
	a, aText := left.(string)
	b, bText := right.(string)
	switch {
	case aText || bText:
		if left == nil {
			aText = true
		}
		if right == nil {
			bText = true
		}
		switch {
		case aText && bText:
			order = strings.Compare(strings.ToLower(a), strings.ToLower(b))
		case aText:
			order = 1
		default:
			order = -1
		}
	default:
		x, _ := numberOf(left)
		y, _ := numberOf(right)
		switch {
		case x < y:
			order = -1
		case x > y:
			order = 1
		}
	}
	return truth(map[string]bool{"=": order == 0, "<>": order != 0, "<": order < 0, ">": order > 0, "<=": order <= 0, ">=": order >= 0}[sign])
}

func truth(is bool) float64 {
	if is {
		return 1
	}
	return 0
}

// joinedText puts two values together as a text.
func joinedText(left, right any) any {
	text := ""
	for _, side := range []any{left, right} {
		switch x := side.(type) {
		case string:
			text += x
		case float64:
			text += strconv.FormatFloat(x, 'f', -1, 64)
		case failure:
			return x
		}
	}
	return text
}
