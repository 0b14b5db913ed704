package disk

import (
	"fmt"

	"fencerow/io/read/farmfile"
	"fencerow/io/read/lines"
	"fencerow/io/read/table"
	"fencerow/io/source"
	"fencerow/program/farm"
)

// Tables reads spreadsheets and Parquet files from the disk, as source.Tables.
type Tables struct{}

var _ source.Tables = Tables{}

// Lines opens a table of farms.
func (Tables) Lines(name string) (lines.Lines, []string, error) { return farmfile.Lines(name) }

// County returns the agency's county table.
func (Tables) County(name string) (found farm.CountySource, notes []string, err error) {
	found, left, err := table.Read(name)
	for _, n := range left {
		where := name
		if n.Line > 0 {
			where += fmt.Sprintf(" line %d", n.Line)
		}
		notes = append(notes, fmt.Sprintf("%s: %s: %s", where, n.Reason, n.Text))
	}
	return found, notes, err
}
