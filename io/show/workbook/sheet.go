package workbook

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// sheet is one sheet while it is laid out, row by row from the top.
type sheet struct {
	title  string
	widths []float64 // of the columns, in characters
	rows   [][]cell
	frozen int // rows at the top that stay in sight
	names  map[string]place
	charts []chart
}

// cell is what stands in one place: a text, a number, or a formula.
type cell struct {
	value   any // string or float64; nil for a formula
	formula string
	look    look
}

// unknown is what a cell says whose figure is missing.
const unknown = "unknown"

// place is where a number stands. The zero place is a figure that is not known.
type place struct {
	on          *sheet
	column, row int // from 1
}

func newSheet(title string, widths ...float64) *sheet {
	return &sheet{title: title, widths: widths, names: map[string]place{}}
}

// add appends a row.
func (s *sheet) add(cells ...cell) { s.rows = append(s.rows, cells) }

// gap appends an empty row.
func (s *sheet) gap() { s.add() }

// line appends a row with one text.
func (s *sheet) line(l look, text string) { s.add(words(l, text)) }

// heads appends the row of column titles of a table.
func (s *sheet) heads(titles ...string) {
	row := make([]cell, len(titles))
	for i, title := range titles {
		row[i] = words(look{bold: true, wrap: true, under: true}, title)
	}
	s.add(row...)
}

// last returns the place of a column in the last row: the zero place where no
// number stands there.
func (s *sheet) last(column int) place {
	row := s.rows[len(s.rows)-1]
	if column > len(row) || !row[column-1].number() {
		return place{}
	}
	return place{s, column, len(s.rows)}
}

// number reports whether the cell holds a number or a formula.
func (c cell) number() bool {
	_, is := c.value.(float64)
	return is || c.formula != ""
}

// known reports whether there is a figure.
func (p place) known() bool { return p.on != nil }

// address is the place within its sheet: "B7".
func (p place) address() string {
	name, err := excelize.CoordinatesToCellName(p.column, p.row)
	if err != nil {
		panic(err) // a column of this package, not of the user
	}
	return name
}

// absolute is the place in the workbook: "'Your figures'!$B$7".
func (p place) absolute() string {
	name, err := excelize.CoordinatesToCellName(p.column, p.row, true)
	if err != nil {
		panic(err)
	}
	return fmt.Sprintf("'%s'!%s", p.on.title, name)
}

// span is the range from one place to another in one row or column.
type span struct{ from, to place }

func (r span) absolute() string {
	to, _ := excelize.CoordinatesToCellName(r.to.column, r.to.row, true)
	return r.from.absolute() + ":" + to
}

// words is a text, which no spreadsheet program takes for a formula: it is
// stored as a string whatever it begins with.
func words(l look, text string) cell { return cell{value: text, look: l} }

// plain is a text in the usual look.
func plain(text string) cell { return words(look{}, text) }

// figure is a number that is not to be changed.
func figure(format string, x float64) cell { return cell{value: x, look: look{format: format}} }

// input is a number that can be changed.
func input(format string, x float64) cell {
	return cell{value: x, look: look{format: format, input: true}}
}

// reference is a place or a span.
type reference interface {
	known() bool
	seenFrom(s *sheet) string
}

// calc is a formula on this sheet. Each ? of the text stands for the next place
// or span; one that is not known makes the result unknown.
func (s *sheet) calc(format, text string, of ...reference) cell {
	pieces := strings.Split(text, "?")
	if len(pieces) != len(of)+1 {
		panic(fmt.Sprintf("workbook: %d places for the formula %s", len(of), text))
	}
	formula := pieces[0]
	for i, at := range of {
		if !at.known() {
			return plain(unknown)
		}
		formula += at.seenFrom(s) + pieces[i+1]
	}
	return cell{formula: formula, look: look{format: format}}
}

// rounded is the text of a formula that rounds as the law does. The text given
// is a product or a call.
func rounded(decimals int, text string) string {
	return fmt.Sprintf("ROUND(%s*%s,%d)", text, liftName, decimals)
}

// seenFrom is the place as a formula on sheet s writes it.
func (p place) seenFrom(s *sheet) string {
	if p.on == s {
		return p.address()
	}
	return p.absolute()
}

// seenFrom is the range as a formula on sheet s writes it.
func (r span) seenFrom(s *sheet) string {
	if r.from.on == s {
		return r.from.address() + ":" + r.to.address()
	}
	return r.absolute()
}

func (r span) known() bool { return r.from.known() && r.to.known() }

// same repeats a figure that stands elsewhere.
func (s *sheet) same(format string, of place) cell { return s.calc(format, "?", of) }

// name gives a known place a name of its own.
func (s *sheet) name(at place, parts ...any) {
	if at.known() {
		s.names[nameOf(parts...)] = at
	}
}
