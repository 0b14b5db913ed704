package builtin

import (
	"bytes"
	"compress/gzip"
	_ "embed"
	"encoding/csv"
	"fmt"
	"io"
	"strconv"
	"strings"
	"sync"
)

// counties is a gzip file of many members: first the index of States, then one member
// for each State, whose lines are set apart so that they pack closely (lines).
//
//go:embed counties.csv.gz
var counties []byte

// heading is the first line of the table.
const heading = "county,commodity,practice,kind,first_year,values\n"

// kindState marks a line of the index: name, then place and length of the member in
// bytes, counted from the end of the index.
const kindState = "state"

// stateMember is where a State's member lies in the file.
type stateMember struct {
	code   string // two digits
	packed []byte
	whole  func() (byAgency, error) // all its counties, read once
}

// index returns the States in the order of their codes.
var index = sync.OnceValues(func() ([]stateMember, error) { return readIndex(counties) })

// readIndex reads the first member of a file.
func readIndex(file []byte) ([]stateMember, error) {
	rest := bytes.NewReader(file) // reads single bytes, so that unpacking stops at the member's end
	text, err := unpack(rest)
	if err != nil {
		return nil, err
	}
	members := file[len(file)-rest.Len():]
	lines := csv.NewReader(bytes.NewReader(text))
	lines.FieldsPerRecord = -1
	rows, err := lines.ReadAll()
	if err != nil || len(rows) == 0 {
		return nil, fmt.Errorf("built-in county tables: the index cannot be read: %w", err)
	}
	var states []stateMember
	for _, row := range rows[1:] {
		const cells = 8 // five columns and three values
		if len(row) != cells || row[3] != kindState {
			return nil, fmt.Errorf("built-in county tables: index line %q", row)
		}
		from, err := strconv.Atoi(row[6])
		length, err2 := strconv.Atoi(row[7])
		if err != nil || err2 != nil || from < 0 || length < 0 || from+length > len(members) {
			return nil, fmt.Errorf("built-in county tables: index line %q lies outside the file", row)
		}
		s := stateMember{code: row[0], packed: members[from : from+length]}
		s.whole = sync.OnceValues(func() (byAgency, error) { return s.counties(s.code) })
		states = append(states, s)
	}
	return states, nil
}

// unpack unpacks one member and leaves the reader at its end.
func unpack(r *bytes.Reader) ([]byte, error) {
	z, err := gzip.NewReader(r)
	if err != nil {
		return nil, err
	}
	z.Multistream(false)
	return io.ReadAll(z)
}

// left is the number of columns that a line shares with the one before where they are empty:
// county, commodity and practice.
const left = 3

// lines returns the lines of a member, as of one CSV table without its heading.
func (s *stateMember) lines() (string, error) {
	packed, err := unpack(bytes.NewReader(s.packed))
	if err != nil {
		return "", fmt.Errorf("built-in county tables of State %s: %w", s.code, err)
	}
	text, err := together(string(packed))
	if err != nil {
		return "", fmt.Errorf("built-in county tables of State %s: %w", s.code, err)
	}
	return text, nil
}

// together puts lines together from their first columns, an empty line, and their values in
// the same order. Empty columns at the left, up to the first that is not, are as in the
// line before.
func together(packed string) (string, error) {
	heads, values, _ := strings.Cut(packed, "\n\n")
	var out strings.Builder
	out.Grow(3 * len(packed))
	var before [left]string
	for heads != "" {
		var head, of string
		var more bool
		head, heads, _ = strings.Cut(heads, "\n")
		if of, values, more = strings.Cut(values, "\n"); !more {
			return "", fmt.Errorf("no values for line %q", head)
		}
		same := true
		for i := range before {
			cell, rest, found := strings.Cut(head, ",")
			if !found {
				return "", fmt.Errorf("line %q", head)
			}
			if same = same && cell == ""; !same {
				before[i] = cell
			}
			head = rest
			out.WriteString(before[i])
			out.WriteByte(',')
		}
		out.WriteString(head)
		out.WriteByte(',')
		out.WriteString(of)
		out.WriteByte('\n')
	}
	if values != "" {
		return "", fmt.Errorf("no line for values %.40q", values)
	}
	return out.String(), nil
}

// inState reports whether the counties that begin with prefix can lie in a State.
func (s stateMember) inState(prefix string) bool {
	return strings.HasPrefix(prefix, s.code) || strings.HasPrefix(s.code, prefix)
}

// counties reads the counties whose code begins with prefix.
func (s stateMember) counties(prefix string) (byAgency, error) {
	text, err := s.lines()
	if err != nil {
		return nil, err
	}
	return parse(text, prefix)
}
