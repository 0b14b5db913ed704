package yields

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"strings"

	"fencerow/io/read/lines"
)

// longestLine is the longest line read; a line of the bulk file has some 600
// characters.
const longestLine = 1 << 20

// Read gives each the county yields of a text file, and month the months of national
// prices, in the file's order, after it told begun what the file is. A packed file (gzip) is unpacked on the way. A
// file of no known layout is refused with a Refusal; an error of begun, each or month
// ends the reading.
func Read(r io.Reader, begun func(File) error, each func(Yield) error, month func(Month) error) (File, error) {
	buffered := bufio.NewReaderSize(r, 1<<16)
	if start, _ := buffered.Peek(2); bytes.Equal(start, []byte{0x1f, 0x8b}) {
		unpacked, err := lines.Unpack(buffered)
		if err != nil {
			return File{}, Refusal{"the packed file is damaged: " + err.Error(), "download it again"}
		}
		buffered = bufio.NewReaderSize(unpacked, 1<<16)
	}
	scanned := bufio.NewScanner(buffered)
	scanned.Buffer(make([]byte, 1<<16), longestLine)
	if !scanned.Scan() {
		return File{}, Refusal{"the file is empty", "download it again"}
	}
	read, err := begin(scanned.Bytes())
	if err != nil {
		return File{}, err
	}
	if err := begun(read.File); err != nil {
		return read.File, err
	}
	fields := make([][]byte, 0, 64)
	for line := 2; scanned.Scan(); line++ {
		text := bytes.TrimRight(scanned.Bytes(), "\r")
		if len(bytes.TrimSpace(text)) == 0 {
			continue
		}
		read.Lines++
		var ok bool
		if fields, ok = split(fields[:0], text, read.layout.separator); !ok {
			read.note(line, text, "a quoted field does not end")
			continue
		}
		found, fault := read.layout.row(read, fields)
		if fault != "" {
			read.note(line, text, fault)
			continue
		}
		if err := give(found, line, each, month); err != nil {
			return read.File, err
		}
	}
	if err := scanned.Err(); err != nil {
		return read.File, Refusal{fmt.Sprintf("the file cannot be read beyond line %d: %v", read.Lines+1, err), "download it again"}
	}
	return read.File, nil
}

// give passes on what a line holds.
func give(found entry, line int, each func(Yield) error, month func(Month) error) error {
	switch found.kind {
	case countyYield:
		found.yield.Line = line
		return each(found.yield)
	case nationalMonth:
		found.month.Line = line
		return month(found.month)
	}
	return nil
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
	return nil, Refusal{"the headings are those of no file read here", "use a file as downloaded: NASS Quick Stats (web CSV, bulk file or interface), or the RMA county yields report. Do not edit the first line"}
}
