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
	return start("farms.csv", text, county)
}
