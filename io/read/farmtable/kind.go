package farmtable

import (
	"path/filepath"
	"strings"
)

// The kinds of file, by the end of their names.
const (
	CSVEnding     = ".csv"
	XLSXEnding    = ".xlsx"
	ParquetEnding = ".parquet"
)

// Sheet is the sheet that is read where a workbook has several.
const Sheet = "farms"

// Ending returns the end of a file's name in lower case.
func Ending(path string) string { return strings.ToLower(filepath.Ext(path)) }

// IsTable reports whether a file is a table of farms by the end of its name.
func IsTable(path string) bool {
	switch Ending(path) {
	case CSVEnding, XLSXEnding, ParquetEnding:
		return true
	}
	return false
}
