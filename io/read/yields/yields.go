package yields

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"strings"
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

// mostNotes keeps a file of nothing but noise from filling the memory.
const mostNotes = 1000

// longestLine is the longest line read; a line of the bulk file has some 600
// characters.
const longestLine = 1 << 20

// Refusal is why a file is not read at all, with what to do.
type Refusal struct{ Reason, Hint string }

func (r Refusal) Error() string { return r.Reason }

// layout is one way in which a file is written.
type layout struct {
	agency, name string
	needs        []string // headings, by which it is known
	separator    byte
	row          func(*reading, [][]byte) (Yield, bool, string)
}

// reading is a file in the course of being read.
type reading struct {
	File
	layout  layout
	columns map[string]int
	items   map[string]item // by data item, so that each is understood once
	names   map[string]string
}

// Read gives each the county yields of a text file, in the file's order, after
// it told begun what the file is. A packed file (gzip) is unpacked on the way. A
// file of no known layout is refused with a Refusal; an error of begun or each
// ends the reading.
func Read(r io.Reader, begun func(File) error, each func(Yield) error) (File, error) {
	buffered := bufio.NewReaderSize(r, 1<<16)
	if start, _ := buffered.Peek(2); bytes.Equal(start, []byte{0x1f, 0x8b}) {
		unpacked, err := gzip.NewReader(buffered)
		if err != nil {
			return File{}, Refusal{"the packed file is damaged: " + err.Error(), "download it again"}
		}
		buffered = bufio.NewReaderSize(unpacked, 1<<16)
	}
	lines := bufio.NewScanner(buffered)
	lines.Buffer(make([]byte, 1<<16), longestLine)
	if !lines.Scan() {
		return File{}, Refusal{"the file is empty", "download it again"}
	}
	read, err := begin(lines.Bytes())
	if err != nil {
		return File{}, err
	}
	if err := begun(read.File); err != nil {
		return read.File, err
	}
	fields := make([][]byte, 0, 64)
	for line := 2; lines.Scan(); line++ {
		text := bytes.TrimRight(lines.Bytes(), "\r")
		if len(bytes.TrimSpace(text)) == 0 {
			continue
		}
		read.Lines++
		var ok bool
		if fields, ok = split(fields[:0], text, read.layout.separator); !ok {
			read.note(line, text, "a quoted field does not end")
			continue
		}
		yield, is, fault := read.layout.row(read, fields)
		if fault != "" {
			read.note(line, text, fault)
		}
		if !is || fault != "" {
			continue
		}
		yield.Line = line
		if err := each(yield); err != nil {
			return read.File, err
		}
	}
	if err := lines.Err(); err != nil {
		return read.File, Refusal{fmt.Sprintf("the file cannot be read beyond line %d: %v", read.Lines+1, err), "download it again"}
	}
	return read.File, nil
}

// begin finds the layout by the words of the heading line.
func begin(heading []byte) (*reading, error) {
	heading = bytes.TrimPrefix(bytes.TrimRight(heading, "\r"), []byte("\xef\xbb\xbf"))
	for _, l := range layouts {
		fields, ok := split(nil, heading, l.separator)
		if !ok {
			continue
		}
		columns := map[string]int{}
		for i, f := range fields {
			columns[strings.ToUpper(strings.TrimSpace(string(f)))] = i
		}
		known := true
		for _, need := range l.needs {
			_, has := columns[need]
			known = known && has
		}
		if known {
			return &reading{File: File{Agency: l.agency, Layout: l.name}, layout: l, columns: columns, items: map[string]item{}, names: map[string]string{}}, nil
		}
	}
	return nil, Refusal{"the headings are those of no file read here", "use a file as downloaded: NASS Quick Stats (web CSV, bulk file, or the interface's CSV), RMA county yields report; do not edit the first line"}
}

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
