package cells

import (
	"fmt"
	"strings"

	"github.com/xuri/excelize/v2"
)

// Sheet is one sheet while it is laid out, row by row from the top.
type Sheet struct {
	Title  string
	Widths []float64 // of the columns, in characters
	Rows   [][]Cell
	Frozen int // rows at the top that stay in sight
	Beside int // columns at the left that do
	Shown  int // columns after these are out of sight, for other sheets; 0: none is
	Names  map[string]Place
	Lists  map[string]string // named lists of other cells, by name: formulas
	Charts []Chart
	Marks  []Span // that say whether figures agree: see mark
	Merged []Span
	Paper  Paper
	Screen Screen
}

// Paper is how a sheet prints: on landscape letter paper, one page wide.
type Paper struct {
	Hidden  bool // not at all, and out of sight
	Upright bool // in portrait
	High    int  // at most so many pages; 0: any number
	Columns int  // only the first so many; 0: all
	Rows    int  // of those, only the first so many; 0: all
	Center  bool
}

// Screen is how a sheet looks on one.
type Screen struct {
	Bare    bool            // without the letters of columns and the numbers of rows
	Heights map[int]float64 // of rows, in points; else as their text needs
	Opens   bool            // the workbook opens on it
	Size    float64         // of running text, in points; 0: the usual one
}

// Cell is what stands in one place: a text, a number, or a formula.
type Cell struct {
	Value   any // string or float64; nil for a formula or a blank
	Formula string
	Look    Look
	Check   *Check // of an input; nil: a number of 0 or more, a share up to 1
}

// Check says what may be typed into an input: from Least to Most, each a number or a
// formula, or one of List, a formula that leads to cells, or texts with commas between
// them.
type Check struct {
	Least, Most any
	List        string
	Any         bool   // anything at all
	Title, Text string // what is said of anything else
	Prompt      string // what is said while the cell is open
}

// Unknown is what a cell says whose figure is missing.
const Unknown = "unknown"

// Place is where a number stands. The zero place is a figure that is not known.
type Place struct {
	On          *Sheet
	Column, Row int // from 1
}

// NewSheet is an empty sheet with columns of some widths.
func NewSheet(title string, widths ...float64) *Sheet {
	return &Sheet{Title: title, Widths: widths, Names: map[string]Place{}, Lists: map[string]string{}}
}

// Add appends a row.
//
//go:noinline
func (s *Sheet) Add(cells ...Cell) { s.Rows = append(s.Rows, cells) }

// Gap appends an empty row.
func (s *Sheet) Gap() { s.Add() }

// Line appends a row with one text.
func (s *Sheet) Line(l Look, text string) { s.Add(Words(l, text)) }

// Heads appends the row of column titles of a table.
func (s *Sheet) Heads(titles ...string) {
	row := make([]Cell, len(titles))
	for i, title := range titles {
		row[i] = Words(Look{Bold: true, Wrap: true, Under: true}, title)
	}
	s.Add(row...)
}

// Last returns the place of a column in the last row: the zero place where no
// number stands there.
//
//go:noinline
func (s *Sheet) Last(column int) Place {
	row := s.Rows[len(s.Rows)-1]
	if column > len(row) || !row[column-1].Number() {
		return Place{}
	}
	return Place{s, column, len(s.Rows)}
}

// Number reports whether the cell holds a number or a formula.
func (c Cell) Number() bool {
	_, is := c.Value.(float64)
	return is || c.Formula != ""
}

// Known reports whether there is a figure.
func (p Place) Known() bool { return p.On != nil }

// Address is the place within its sheet: "B7".
func (p Place) Address() string {
	name, err := excelize.CoordinatesToCellName(p.Column, p.Row)
	if err != nil {
		panic(err) // a column of this package, not of the user
	}
	return name
}

// Absolute is the place in the workbook: "'Your figures'!$B$7".
func (p Place) Absolute() string {
	name, err := excelize.CoordinatesToCellName(p.Column, p.Row, true)
	if err != nil {
		panic(err)
	}
	return fmt.Sprintf("'%s'!%s", p.On.Title, name)
}

// Span is the range from one place to another in one row or column.
type Span struct{ From, To Place }

// Absolute is the range in the workbook.
func (r Span) Absolute() string {
	to, _ := excelize.CoordinatesToCellName(r.To.Column, r.To.Row, true)
	return r.From.Absolute() + ":" + to
}

// Words is a text, which no spreadsheet program takes for a formula: it is
// stored as a string whatever it begins with.
func Words(l Look, text string) Cell { return Cell{Value: text, Look: l} }

// Plain is a text in the usual look.
func Plain(text string) Cell { return Words(Look{}, text) }

// Figure is a number that is not to be changed.
func Figure(format string, x float64) Cell { return Cell{Value: x, Look: Look{Format: format}} }

// Input is a number that can be changed.
func Input(format string, x float64) Cell {
	return Cell{Value: x, Look: Look{Format: format, Input: true}}
}

// Reference is a place or a span.
type Reference interface {
	Known() bool
	seenFrom(s *Sheet) string
}

// Calc is a formula on this sheet. Each ? of the text stands for the next place
// or span; one that is not known makes the result unknown.
func (s *Sheet) Calc(format, text string, of ...Reference) Cell {
	pieces := strings.Split(text, "?")
	if len(pieces) != len(of)+1 {
		panic(fmt.Sprintf("workbook: %d places for the formula %s", len(of), text))
	}
	formula := pieces[0]
	for i, at := range of {
		if !at.Known() {
			return Plain(Unknown)
		}
		formula += at.seenFrom(s) + pieces[i+1]
	}
	return Cell{Formula: formula, Look: Look{Format: format}}
}

// LiftName is the name of the cell of program.Lift.
const LiftName = "lift"

// Rounded is the text of a formula that rounds as the law does. The text given
// is a product or a call.
func Rounded(decimals int, text string) string {
	return fmt.Sprintf("ROUND(%s*%s,%d)", text, LiftName, decimals)
}

// seenFrom is the place as a formula on sheet s writes it.
func (p Place) seenFrom(s *Sheet) string {
	if p.On == s {
		return p.Address()
	}
	return p.Absolute()
}

// seenFrom is the range as a formula on sheet s writes it.
func (r Span) seenFrom(s *Sheet) string {
	if r.From.On == s {
		return r.From.Address() + ":" + r.To.Address()
	}
	return r.Absolute()
}

// Known reports whether both ends are known.
func (r Span) Known() bool { return r.From.Known() && r.To.Known() }

// Same repeats a figure that stands elsewhere.
func (s *Sheet) Same(format string, of Place) Cell { return s.Calc(format, "?", of) }

// Name gives a known place a name of its own.
//
//go:noinline
func (s *Sheet) Name(at Place, parts ...any) {
	if at.Known() {
		s.Names[NameOf(parts...)] = at
	}
}

// LineWidth is the longest line of running text, in characters.
const LineWidth = 110

// Paragraph prints a text with a gap below.
func (s *Sheet) Paragraph(text string) {
	s.Running("", text)
	s.Gap()
}

// Running prints a text line by line, so that it can be read and printed without
// setting the height of a row.
func (s *Sheet) Running(mark, text string) {
	for i, line := range Wrapped(text, LineWidth) {
		if i == 0 {
			line = mark + line
		} else {
			line = strings.Repeat(" ", len(mark)) + line
		}
		s.Line(Look{Size: s.Screen.Size}, line)
	}
}

// End closes a sheet with lines of text.
func (s *Sheet) End(lines ...string) {
	s.Gap()
	for _, line := range lines {
		s.Running("", line)
	}
}

// With extends a range by a place; a place that is not known spoils it.
func (r Span) With(first bool, at Place) Span {
	switch {
	case !at.Known() || !first && !r.From.Known():
		return Span{}
	case first:
		return Span{at, at}
	}
	return Span{r.From, at}
}

// At is the place of a column and row, from 1, on a sheet.
func At(on *Sheet, column, row int) Place { return Place{on, column, row} }

// Between is the range from one place to another in one row or column.
func Between(from, to Place) Span { return Span{from, to} }

// Columns are the cells of a column from a row to another: absolute, for formulas that
// look a row up.
func Columns(on *Sheet, column, from, to int) string {
	return Between(At(on, column, from), At(on, column, to)).Absolute()
}

// Set puts a cell at a column and row, from 1. Put in line in every layout it would make the
// program a hundred kilobytes larger.
//
//go:noinline
func (s *Sheet) Set(column, row int, c Cell) Place {
	for len(s.Rows) < row {
		s.Rows = append(s.Rows, nil)
	}
	for len(s.Rows[row-1]) < column {
		s.Rows[row-1] = append(s.Rows[row-1], Cell{})
	}
	s.Rows[row-1][column-1] = c
	return Place{s, column, row}
}

// Merge joins the cells of a row from a column to another.
func (s *Sheet) Merge(row, from, to int) {
	s.Merged = append(s.Merged, Span{Place{s, from, row}, Place{s, to, row}})
}

// With is the cell in another look.
func (c Cell) With(l Look) Cell {
	c.Look = l
	return c
}

// Fixed is the range within its sheet, for formulas that look something up in it:
// "$A$2:$A$9".
func (r Span) Fixed() string {
	_, text, _ := strings.Cut(r.Absolute(), "!")
	return text
}
