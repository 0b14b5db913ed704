package farmtable

import (
	"io"
	"slices"

	"fencerow/io/read/lines"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// County finds the code of a county by the two digits of its State and its name.
type County = func(state, name string) (code string, ok bool)

// Reader reads a table of farms row by row.
type Reader struct {
	path   string
	lines  lines.Lines
	county County
	place  [columnCount]int // where each column stands, from 0; absent: -1
	headed []bool           // by place: whether the column has a heading
	notes  []string
	named  agencyNames
	comma  bool // a comma may be a decimal comma: it does not separate the values

	reading  *rowReader                // used again for each row
	crops    map[string]crop.Commodity // by what was written, as far as understood
	states   map[string]string         // likewise, two digits
	counties map[countyOf]string       // likewise, codes of what county found

	profile Profile
	percent [columnCount]bool // numbers of the column are percentages

	headingLine int
	titles      map[string]bool // lines above the headings
	passed      [furnitureCount]passed
	above       aboveRow
	merged      [columnCount]int // cells taken from the row above
	points      decimalSigns
	rows        int               // read so far
	ended       bool              // all are read
	filled      [columnCount]bool // columns in which some row has a value
}

// absent is the place of a column that a table does not have.
const absent = -1

// Open reads the headings of a table. county finds a county by name and may be nil; profile
// goes before the headings that are understood, and may say nothing. notes say what of the file is not among its lines. Missing columns and a file that
// breaks off are farm.Mistakes, and close the lines.
func Open(path string, from lines.Lines, notes []string, county County, profile Profile) (*Reader, error) {
	r, err := start(path, from, county, profile)
	if err != nil {
		from.Close()
		return nil, err
	}
	r.notes = append(notes, r.notes...)
	return r, nil
}

// start reads the headings.
func start(path string, from lines.Lines, county County, profile Profile) (*Reader, error) {
	r := newReader(path, from, county, profile)
	return r, r.findHeadings()
}

// newReader returns a reader that has not read the headings.
func newReader(path string, from lines.Lines, county County, profile Profile) *Reader {
	r := &Reader{path: path, lines: from, county: county, profile: profile, named: agencyNames{}}
	if text, ok := from.(*csvLines); ok {
		r.comma = text.rows.Comma != ','
	}
	for c := range r.place {
		r.place[c] = absent
	}
	return r
}

// NamesNobody reports whether the table has no column of clients, operations or producers:
// then nothing in it says which farms belong together.
func (r *Reader) NamesNobody() bool {
	for _, c := range []column{clientColumn, operationColumn, producerColumn} {
		if _, constant := r.profile.constants[c]; constant || r.place[c] != absent {
			return false
		}
	}
	return true
}

// Notes returns what is not read and no mistake: columns and sheets not known, rows passed
// over so far; and what was understood in a way that people may want to know.
func (r *Reader) Notes() []string {
	notes := append(slices.Clone(r.notes), r.passedNotes()...)
	if merged := r.mergedNote(); merged != "" {
		notes = append(notes, merged)
	}
	if text, ok := r.lines.(*csvLines); ok && text.decoded > 0 {
		notes = append(notes, "the file is not in UTF-8: its letters are read as Windows-1252")
	}
	return notes
}

// Next returns the next row that is not blank, with every reason for which it
// is refused. A refused row holds what could be read of it, so that its farm is
// known; of a line with a misplaced quotation mark that is its number alone. err is io.EOF at the end of the table; any other error is farm.Mistakes
// and ends the reading.
func (r *Reader) Next() (row Row, refused []Refusal, err error) {
	for {
		next, err := r.lines.Next()
		if err == io.EOF {
			r.ended = true
			if blank := r.keyBlank(); len(blank) > 0 {
				return Row{}, nil, blank
			}
			return Row{}, nil, io.EOF
		}
		if err != nil {
			return Row{}, nil, r.unreadable(err)
		}
		if next.Fault != "" {
			return Row{Line: next.Number}, []Refusal{{next.Number, "", "", "the row " + next.Fault, "write a quotation mark inside a value twice, or leave it out"}}, nil
		}
		if !next.Blank() && !r.passOver(next) {
			row, refused := r.readRow(next)
			return row, refused, nil
		}
	}
}

// Mistake returns a refusal as a mistake of the file, with the number of its
// column.
func (r *Reader) Mistake(f Refusal) farm.Mistake {
	m := farm.Mistake{File: r.path, Line: f.Line, Value: f.Value, Reason: f.Reason, Hint: f.Hint}
	if c, known := columnNamed(f.Column); known {
		m.Column = r.place[c] + 1 // 0 where the table has no such column
	}
	return m
}

// Close closes the file.
func (r *Reader) Close() error { return r.lines.Close() }
