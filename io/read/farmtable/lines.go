package farmtable

import (
	"errors"
	"fmt"
	"io/fs"
	"path/filepath"
	"strings"

	"fencerow/program/farm"
)

// line is one line of a table, before its cells are understood.
type line struct {
	number int
	cells  []string
	fault  string // why the line cannot be taken apart; "": it can
}

// blank reports whether a line holds nothing but blanks.
func (l line) blank() bool {
	for _, cell := range l.cells {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return l.fault == ""
}

// lines is a table from its first line to its last, whatever the kind of file.
// next returns io.EOF after the last; any other error ends the reading.
type lines interface {
	next() (line, error)
	close() error
}

// The kinds of file, by the end of their names.
const (
	csvEnding     = ".csv"
	xlsxEnding    = ".xlsx"
	parquetEnding = ".parquet"
)

// IsTable reports whether a file is a table of farms by the end of its name.
func IsTable(path string) bool {
	switch strings.ToLower(filepath.Ext(path)) {
	case csvEnding, xlsxEnding, parquetEnding:
		return true
	}
	return false
}

// openLines opens a table. notes say what of the file is not read.
func openLines(path string) (found lines, notes []string, err error) {
	switch strings.ToLower(filepath.Ext(path)) {
	case csvEnding:
		found, err = openCSV(path)
	case xlsxEnding:
		return openWorkbook(path)
	case parquetEnding:
		found, err = openParquet(path)
	default:
		err = refuseFile(path, filepath.Ext(path), fmt.Sprintf("%q is no ending of a table", filepath.Ext(path)), "save the table as .csv, .xlsx or .parquet")
	}
	return found, nil, err
}

// refuseFile is the one mistake for which a file is not read, or not read on.
func refuseFile(path, value, reason, hint string) farm.Mistakes {
	return farm.Mistakes{{File: path, Value: value, Reason: reason, Hint: hint}}
}

// unreadable is the mistake of a file that cannot be opened or read.
func unreadable(path string, err error) farm.Mistakes {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err // its name is told already
	}
	return refuseFile(path, "", "cannot be read: "+err.Error(), "check the name and that the file can be opened")
}
