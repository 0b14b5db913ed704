package farmtable

import "io"

// What the tests, which stand outside so that they may open workbooks, need of the inside.
const (
	AllRows    = allRows
	MostRecord = mostRecord
)

var (
	Typed            = typed
	SpreadsheetError = spreadsheetError
)

// OpenText opens a table that is no file.
func OpenText(from io.Reader, county County) (*Reader, error) {
	text, err := newCSV("farms.csv", from)
	if err != nil {
		return nil, err
	}
	return start("farms.csv", text, county, Profile{})
}

// Headings are all headings that are understood, by column, beside its own name.
func Headings() map[string][]string {
	all := map[string][]string{}
	for c := range columnCount {
		all[columns[c].name] = append(append([]string(nil), otherHeadings[c]...), percentHeadings[c]...)
	}
	return all
}

// Understood is the column that a heading means.
func Understood(heading string) (string, bool) {
	c, ok := columnNamed(heading)
	return columns[c].name, ok
}
