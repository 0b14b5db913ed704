package yields

import (
	"bytes"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Yield is one county yield as an agency prints it, in the commodity's unit.
// NASS's is per harvested acre, RMA's per planted acre.
type Yield struct {
	Line       int // of the file, counted from 1
	County     string
	CountyName string
	Commodity  crop.Commodity
	Class      string // of wheat at NASS: winter, spring, durum; "" for all
	Practice   farm.Practice
	CropYear   crop.CropYear
	Value      crop.Yield
}

// Month is what NASS prints of a national price and one month: the price that farmers
// received, or the part of the marketing year's sales that fell in it.
type Month struct {
	Line      int // of the file, counted from 1
	Commodity crop.Commodity
	Month     time.Time  // its first day
	IsWeight  bool       // Weight is given, not Price
	Price     crop.Price // in the commodity's unit
	Weight    crop.Share // of the marketing year's sales
}

// Note names a line that was not understood. The reading went on without it.
type Note struct {
	Line   int
	Text   string
	Reason string
}

// File says what a file turned out to be.
type File struct {
	Agency  string    // NASS or RMA
	Layout  string    // "Quick Stats, web download", ...
	Edition time.Time // newest load time in the file; zero where it has none
	Lines   int       // read, without the heading
	Notes   []Note    // at most mostNotes of them
	Noted   int       // all of them
}

// Refusal is why a file is not read at all, with what to do.
type Refusal struct{ Reason, Hint string }

func (r Refusal) Error() string { return r.Reason }

// layout is one way in which a file is written.
type layout struct {
	agency, name string
	needs        []string // headings, by which it is known
	separator    byte
	row          func(*reading, [][]byte) (entry, string)
}

// entry is what a line holds: a county yield, a month of a national price, or nothing
// that is read here.
type entry struct {
	kind  entryKind
	yield Yield
	month Month
}

type entryKind int

const (
	nothing entryKind = iota
	countyYield
	nationalMonth
)

// reading is a file that is being read.
type reading struct {
	File
	layout  layout
	columns map[string]int
	items   map[string]item // by data item, so that each is understood once
	names   map[string]string
}

// mostNotes keeps a file of nothing but noise from filling the memory.
const mostNotes = 1000

// note keeps a note of a line.
func (r *reading) note(line int, text []byte, reason string) {
	r.Noted++
	if len(r.Notes) < mostNotes {
		const shown = 120
		r.Notes = append(r.Notes, Note{line, string(text[:min(len(text), shown)]), reason})
	}
}

// field returns a column of a line, trimmed; "" where the line is too short.
func (r *reading) field(fields [][]byte, column string) []byte {
	i, has := r.columns[column]
	if !has || i >= len(fields) {
		return nil
	}
	return bytes.TrimSpace(fields[i])
}

// name keeps one copy of a text that comes again and again.
func (r *reading) name(text []byte) string {
	if known, has := r.names[string(text)]; has {
		return known
	}
	kept := string(text)
	r.names[kept] = kept
	return kept
}

// split cuts a line at separators. In a comma file a field may stand in quotes,
// with a quote within doubled; a tab file has no quoting. ok is false where a
// quote does not end. The fields point into line.
func split(fields [][]byte, line []byte, separator byte) ([][]byte, bool) {
	for {
		if separator == ',' && len(line) > 0 && line[0] == '"' {
			field, rest, ok := quoted(line)
			if !ok {
				return fields, false
			}
			fields = append(fields, field)
			if len(rest) == 0 {
				return fields, true
			}
			line = rest[1:]
			continue
		}
		at := bytes.IndexByte(line, separator)
		if at < 0 {
			return append(fields, line), true
		}
		fields, line = append(fields, line[:at]), line[at+1:]
	}
}

// quoted takes a quoted field off the start of a line; rest begins at the
// separator. A field with a doubled quote within is copied.
func quoted(line []byte) (field, rest []byte, ok bool) {
	var copied []byte
	for from := 1; ; {
		at := bytes.IndexByte(line[from:], '"')
		if at < 0 {
			return nil, nil, false
		}
		end := from + at
		if end+1 < len(line) && line[end+1] == '"' {
			copied = append(copied, line[from:end+1]...)
			from = end + 2
			continue
		}
		field, rest = line[from:end], line[end+1:]
		if copied != nil {
			field = append(copied, field...)
		}
		return field, rest, len(rest) == 0 || rest[0] == ','
	}
}
