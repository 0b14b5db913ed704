package summary

import (
	"cmp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"fencerow/io/show/wording"
)

// Table is one sheet.
type Table struct {
	Name    string   // of the sheet
	Title   string   // above all; "": the name
	Said    []string // lines above the table
	Columns []Column
	Rows    [][]any  // by column: text, numbers, or numbers written as text; nil or "": not known
	Total   []any    // a last line that is no part of the list; nil for none
	Notes   []string // lines below the table
}

// Column is a column of a table.
type Column struct {
	Head  string // in words, with the unit
	Kind  Kind
	Width int // the most letters of a line; 0: what the kind has
}

// Kind is how the values of a column are shown.
type Kind int

// The kinds. All but the first two are numbers.
const (
	Text    Kind = iota // names and short words
	Words               // sentences, on several lines
	Count               // 1,234
	Acres               // 1,234.50
	Dollars             // $1,234; with cents under $5
	PerAcre             // $12.34
	Part                // 0.125 as 13%
	Day                 // 2027-10-01 as October 1, 2027
	Year                // 2026
)

// value is what a cell holds: numbers as numbers, also where they were read from a file.
func (k Kind) value(v any) any {
	text, is := v.(string)
	switch {
	case !is:
		return v
	case text == "":
		return nil
	case k == Text || k == Words:
		return text
	case k == Day:
		day, err := time.Parse(time.DateOnly, text)
		if err != nil {
			return text
		}
		return days(day)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		return text
	}
	return x
}

// valued returns the table with numbers in place of numbers written as text.
func (t Table) valued() Table {
	convert := func(row []any) []any {
		out := make([]any, min(len(row), len(t.Columns)))
		for i := range out {
			out[i] = t.Columns[i].Kind.value(row[i])
		}
		return out
	}
	rows := make([][]any, len(t.Rows))
	for i, row := range t.Rows {
		rows[i] = convert(row)
	}
	t.Rows = rows
	if t.Total != nil {
		t.Total = convert(t.Total)
	}
	return t
}

// days is a day as a spreadsheet counts it.
func days(day time.Time) float64 {
	first := time.Date(1899, time.December, 30, 0, 0, 0, 0, time.UTC)
	const hours = 24
	return day.Sub(first).Hours() / hours
}

// letters is about how many letters a value takes as it is shown.
func (k Kind) letters(v any) int {
	x, is := v.(float64)
	switch n := v.(type) {
	case string:
		return utf8.RuneCountInString(n)
	case int:
		x, is = float64(n), true
	case int32:
		x, is = float64(n), true
	}
	if !is {
		return 0
	}
	switch k {
	case Acres, PerAcre:
		return len(wording.Grouped(x, 2)) + 1
	case Part:
		return len("100%")
	case Day:
		return len("Sep 30, 2027")
	case Year:
		return len("2027")
	}
	return len(wording.Grouped(x, 0)) + 1
}

// Widths of columns, in letters.
const (
	widestText  = 22
	widestWords = 60
	narrowest   = 7
	filterMark  = 3 // beside a head
)

// widths are those that fit heads and values.
func (t Table) widths() []float64 {
	all := make([]float64, len(t.Columns))
	for i, c := range t.Columns {
		most := narrowest
		for _, word := range strings.Fields(c.Head) {
			most = max(most, len(word)+filterMark)
		}
		if len(c.Head) > 2*most { // a head stands on three lines at most
			most = max(most, (len(c.Head)+filterMark)/2)
		}
		widest := cmp.Or(c.Width, widestText)
		if c.Kind == Words {
			widest = cmp.Or(c.Width, widestWords)
		}
		for _, row := range append(slices.Clip(t.Rows), t.Total) {
			if i < len(row) {
				most = max(most, min(widest, c.Kind.letters(row[i])+1))
			}
		}
		if !slices.ContainsFunc(t.Rows, func(row []any) bool { return i < len(row) && row[i] != nil }) {
			most = max(most, c.Width) // left blank for people to fill in
		}
		all[i] = float64(most) + 1
	}
	return all
}

// lines is on how many lines a text stands in a width.
func lines(text string, width float64) int {
	n, at := 1, 0
	for _, word := range strings.Fields(text) {
		size := utf8.RuneCountInString(word)
		if at > 0 && at+1+size > int(width) {
			n, at = n+1, size
			continue
		}
		at += size
		if at > size {
			at++
		}
	}
	return n
}
