package farmtable

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"strings"
	"unicode/utf8"

	"fencerow/io/read/lines"
)

// mostRecord is the most bytes one row of text may have: a quote that is never
// closed would otherwise draw the rest of the file into memory.
const mostRecord = 1 << 20

// mostHeading is how far into a file the separator is looked for.
const mostHeading = 64 << 10

var errLongRecord = errors.New("a row is longer than 1 MB")

// byteOrderMark begins files that spreadsheet programs save as UTF-8.
var byteOrderMark = []byte("\ufeff")

// csvLines is a text file with separated values.
type csvLines struct {
	path    string
	file    io.Closer
	limited *recordLimit
	rows    *csv.Reader
	before  int // lines of the file before the first that rows sees
	decoded int // cells that were not in UTF-8
}

// CSV reads an open text file with separated values, and closes it with the lines.
func CSV(path string, file fs.File) (lines.Lines, error) {
	if info, err := file.Stat(); err == nil && info.IsDir() {
		file.Close()
		return nil, lines.Refuse(path, "", "is a folder", "name a file")
	}
	found, err := newCSV(path, file)
	if err != nil {
		file.Close()
		return nil, err
	}
	found.file = file
	return found, nil
}

// newCSV finds byte order mark and separator, and stands before the first line.
func newCSV(path string, from io.Reader) (*csvLines, error) {
	buffered := bufio.NewReaderSize(from, mostHeading)
	start, err := buffered.Peek(mostHeading)
	if order := utf16Order(start); order != nil {
		buffered.Discard(len(utf16Marks[0].mark))
		buffered = bufio.NewReaderSize(&utf16Text{from: buffered, order: order}, mostHeading)
		start, err = buffered.Peek(mostHeading)
	}
	if err != nil && err != io.EOF {
		return nil, lines.Unreadable(path, err)
	}
	if bytes.IndexByte(start, 0) >= 0 {
		return nil, lines.Refuse(path, "", "is not text in UTF-8", "in the spreadsheet program choose \"CSV UTF-8\" when saving")
	}
	l := &csvLines{path: path}
	if bytes.HasPrefix(start, byteOrderMark) {
		buffered.Discard(len(byteOrderMark))
		start = start[len(byteOrderMark):]
	}
	separator, stated := statedSeparator(start)
	if stated {
		buffered.ReadString('\n') // its end was seen or is the end of the file
		l.before = 1
	} else {
		separator = likelySeparator(start)
	}
	l.limited = &recordLimit{from: &textFormulas{from: buffered, separator: byte(separator)}}
	l.rows = csv.NewReader(l.limited)
	l.rows.Comma, l.rows.FieldsPerRecord = separator, -1
	return l, nil
}

// statedSeparator reads a first line such as "sep=;".
func statedSeparator(start []byte) (rune, bool) {
	first, _, _ := bytes.Cut(start, []byte("\n"))
	stated, ok := strings.CutPrefix(strings.ToLower(strings.TrimRight(string(first), "\r")), "sep=")
	if ok && len(stated) == 1 && strings.Contains(separators, stated) {
		return rune(stated[0]), true
	}
	return 0, false
}

const separators = ",;\t"

// likelySeparator returns the separator that parts one of the first lines into the most
// headings that are understood. Where none has any, it is the one that stands alike in the
// most lines.
func likelySeparator(start []byte) rune {
	var found []string
	for len(start) > 0 && len(found) < mostTitles {
		var line []byte
		if line, start, _ = bytes.Cut(start, []byte("\n")); len(bytes.TrimSpace(line)) > 0 {
			found = append(found, string(line))
		}
	}
	likeliest, most := ',', 0
	for _, separator := range separators {
		for _, line := range found {
			if known, _ := headingsIn(strings.Split(line, string(separator)), Profile{}); known > max(most, 1) {
				likeliest, most = separator, known
			}
		}
	}
	if most > 0 || len(found) == 0 {
		return likeliest
	}
	for _, separator := range separators {
		if n := alike(found, string(separator)); n > most {
			likeliest, most = separator, n
		}
	}
	return likeliest
}

// alike is the most separators that stand in a line, times the lines that have as many.
func alike(found []string, separator string) (most int) {
	lines := map[int]int{} // by their count of separators
	for _, line := range found {
		n := strings.Count(line, separator)
		lines[n]++
		most = max(most, n*lines[n])
	}
	return most
}

// Next returns the next line, as lines.Lines has it.
func (l *csvLines) Next() (lines.Line, error) {
	l.limited.left = mostRecord
	cells, err := l.rows.Read()
	var wrong *csv.ParseError
	switch {
	case err == io.EOF:
		return lines.Line{}, io.EOF
	case errors.Is(err, errLongRecord):
		return lines.Line{}, lines.Refuse(l.path, "", fmt.Sprintf("the row after line %d has more than %d bytes", l.lastLine(), mostRecord), "look for a quotation mark that is never closed")
	case errors.As(err, &wrong):
		return lines.Line{Number: l.before + wrong.StartLine, Fault: "has a quotation mark out of place"}, nil
	case err != nil:
		return lines.Line{}, lines.Unreadable(l.path, err)
	}
	for i, cell := range cells {
		if utf8.ValidString(cell) {
			continue
		}
		if decoded, ok := fromWindows1252(cell); ok {
			cells[i] = decoded
			l.decoded++
		}
	}
	number, _ := l.rows.FieldPos(0)
	return lines.Line{Number: l.before + number, Cells: cells}, nil
}

// lastLine returns the line to which the file was read without trouble.
func (l *csvLines) lastLine() (number int) {
	defer func() { recover() }() // FieldPos panics before the first row
	number, _ = l.rows.FieldPos(0)
	return l.before + number
}

// Close closes the file.
func (l *csvLines) Close() error {
	if l.file == nil {
		return nil
	}
	return l.file.Close()
}

// recordLimit ends the reading where one row takes more bytes than are left.
type recordLimit struct {
	from io.Reader
	left int
}

// Read reads what is left of the row at most.
func (r *recordLimit) Read(into []byte) (int, error) {
	if r.left <= 0 {
		return 0, errLongRecord
	}
	n, err := r.from.Read(into[:min(len(into), r.left)])
	r.left -= n
	return n, err
}
