package farmfile

import (
	"fmt"
	"os"
	"path/filepath"

	"fencerow/io/read/farmtable"
	"fencerow/io/read/lines"
	"fencerow/io/read/parquet"
	"fencerow/io/read/workbook"
)

// Open opens a table of farms by the end of its name and reads its headings; see
// farmtable.Open.
func Open(path string, county farmtable.County) (*farmtable.Reader, error) {
	found, notes, err := Lines(path)
	if err != nil {
		return nil, err
	}
	return farmtable.Open(path, found, notes, county, farmtable.Profile{})
}

// Lines opens a table by the end of its name. notes say what of the file is not read.
func Lines(path string) (found lines.Lines, notes []string, err error) {
	switch farmtable.Ending(path) {
	case farmtable.CSVEnding:
		file, err := os.Open(path)
		if err != nil {
			return nil, nil, lines.Unreadable(path, err)
		}
		found, err = farmtable.CSV(path, file)
		return found, nil, err
	case farmtable.XLSXEnding:
		return workbook.Lines(path, farmtable.Sheet)
	case farmtable.ParquetEnding:
		found, err = parquet.Open(path)
		return found, nil, err
	}
	ending := filepath.Ext(path)
	return nil, nil, lines.Refuse(path, ending, fmt.Sprintf("%q is no ending of a table", ending), "save the table as .csv, .xlsx or .parquet")
}
