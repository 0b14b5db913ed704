package table

import (
	"errors"
	"fmt"
	"strings"

	"fencerow/io/read/workbook"
	"fencerow/program/farm"
)

// headingWithin is how many lines of a sheet are searched for the headings.
const headingWithin = 100

// readTable reads the first sheet that serves as a county table and notes any
// other that has its headings.
func readTable(file string) (table, error) {
	book, err := openWorkbook(file)
	if err != nil {
		return table{}, err
	}
	defer book.Close()
	var chosen *table
	var failed farm.Mistakes
	var others []Note
	for _, name := range book.GetSheetList() {
		s := sheet{file: file, name: name, skip: chosen != nil}
		mistakes := s.read(book)
		switch {
		case len(mistakes) > 0:
			failed = append(failed, mistakes...)
			others = append(others, Note{Text: name, Reason: "sheet not read: " + mistakes[0].Reason})
		case !s.found:
		case chosen == nil:
			chosen = &s.table
		default:
			others = append(others, Note{Text: name, Reason: fmt.Sprintf("a second sheet with a county table: only '%s' is read", chosen.sheet)})
		}
	}
	switch {
	case chosen != nil:
		chosen.notes = append(chosen.notes, others...)
		return *chosen, nil
	case len(failed) > 0:
		return table{}, failed
	}
	return table{}, refuse(file, "", NotCountyTable, hintUntouched)
}

// sheet is one sheet that is being read.
type sheet struct {
	table
	file, name string
	skip       bool // stop once the headings are found
	found      bool
	heading    heading
	filled     int          // lines with anything in them
	seen       map[key]int  // place in rows
	conflict   map[key]bool // keys with two different lines
}

// key is what no two lines of a table may share.
type key struct {
	code, commodity, practice string
}

func (r Row) key() key { return key{r.Code, string(r.Commodity), string(r.Practice)} }

// read goes through the sheet line by line.
func (s *sheet) read(book *workbook.Book) farm.Mistakes {
	rows, err := book.Rows(s.name)
	if err != nil {
		return s.broken(0, err)
	}
	defer rows.Close()
	for line := 1; rows.Next() && !s.done(line); line++ {
		cells, err := rows.Columns()
		if err != nil {
			return s.broken(line, err)
		}
		if blank(cells) {
			continue // counts for nothing, however many there are
		}
		if mistakes := s.line(line, cells); len(mistakes) > 0 {
			return mistakes
		}
	}
	if err := rows.Error(); err != nil {
		return s.broken(0, err)
	}
	s.dropConflicts()
	if s.found && !s.skip && len(s.rows) == 0 {
		return refuse(s.file, s.name, fmt.Sprintf("sheet '%s' has no line that could be read (%d not understood)", s.name, len(s.notes)), hintUntouched)
	}
	return nil
}

// done reports whether the sheet need not be read from this line on.
func (s *sheet) done(line int) bool {
	if s.found {
		return s.skip
	}
	return line > headingWithin
}

func (s *sheet) broken(line int, err error) farm.Mistakes {
	return farm.Mistakes{{File: s.file, Line: line, Value: s.name, Reason: fmt.Sprintf("sheet '%s' cannot be read: %v", s.name, err), Hint: hintDownload}}
}

// errTooLarge is why a sheet is refused that no agency would publish.
var errTooLarge = errors.New("more lines or columns than any county table")

// line takes in one filled line.
func (s *sheet) line(line int, cells []string) farm.Mistakes {
	s.filled++
	switch {
	case s.filled > mostLines || len(cells) > mostColumns:
		return s.broken(line, errTooLarge)
	case !s.found && !isHeading(cells):
		return nil // title, letters and formulas above the headings
	case !s.found && s.skip:
		s.found = true
		return nil
	case !s.found:
		return s.begin(line, cells)
	}
	r, err := s.heading.row(line, cells)
	if err != nil {
		s.note(line, cells, err.Error())
		return nil
	}
	s.add(r, cells)
	return nil
}

// begin starts the table at its headings.
func (s *sheet) begin(line int, cells []string) farm.Mistakes {
	h, notes, mistakes := readHeading(s.file, line, cells)
	if len(mistakes) > 0 {
		return mistakes
	}
	s.found, s.heading = true, h
	s.table = table{sheet: s.name, programYear: h.programYear, notes: notes}
	s.seen, s.conflict = map[key]int{}, map[key]bool{}
	return nil
}

// add keeps a row. A second one of the same county, crop and practice is never
// kept; where the two differ, neither is, since nobody can say which is right.
func (s *sheet) add(r Row, cells []string) {
	at, again := s.seen[r.key()]
	if !again {
		s.seen[r.key()] = len(s.rows)
		s.rows = append(s.rows, r)
		return
	}
	first := s.rows[at]
	if first.sameFigures(r) {
		s.note(r.Line, cells, fmt.Sprintf("repeats line %d", first.Line))
		return
	}
	s.note(r.Line, cells, fmt.Sprintf("differs from line %d, which is of the same county, crop and practice: neither is read", first.Line))
	s.conflict[r.key()] = true
}

func (s *sheet) dropConflicts() {
	if len(s.conflict) == 0 {
		return
	}
	kept := s.rows[:0]
	for _, r := range s.rows {
		if !s.conflict[r.key()] {
			kept = append(kept, r)
		}
	}
	s.rows = kept
}

// note names a line by its words: county, crop, unit, practice.
func (s *sheet) note(line int, cells []string, reason string) {
	var text []string
	for c := code; c < firstFigure; c++ {
		if word := s.heading.cell(cells, c); word != "" {
			text = append(text, word)
		}
	}
	s.notes = append(s.notes, Note{Line: line, Text: strings.Join(text, ", "), Reason: reason})
}

// sameFigures reports whether two rows publish the same numbers.
func (r Row) sameFigures(other Row) bool {
	for c := firstFigure; c < columnCount; c++ {
		a, b := *r.figure(c), *other.figure(c)
		if (a == nil) != (b == nil) || a != nil && *a != *b {
			return false
		}
	}
	return true
}

func blank(cells []string) bool {
	for _, cell := range cells {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return true
}
