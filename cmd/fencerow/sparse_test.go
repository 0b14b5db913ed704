package main

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"
)

// A sparse file says that it has 20 GB and takes no room on the disk. Whatever it is given
// for, it is refused before it is read through, with what to do.
func TestSparseFiles(t *testing.T) {
	if runtime.GOOS == "windows" {
		return // there the disk is filled
	}
	folder := t.TempDir()
	sparse := func(name string, start string) string {
		path := writeText(t, filepath.Join(folder, name), start)
		if err := os.Truncate(path, 20<<30); err != nil {
			t.Skip("no such file can be made here:", err)
		}
		return path
	}
	table, operation, workbook, parquet, book := sparse("farms.csv", ""), sparse("farms.yaml", ""), sparse("farms.xlsx", "PK\x03\x04"), sparse("farms.parquet", "PAR1"), sparse("counties.db", "")
	half := sparse("half.csv", "farm,county,commodity,base_acres,payment_yield\n0417,99001,corn,120,150\n")
	for _, args := range [][]string{
		{"compare", table}, {"compare", operation}, {"compare", workbook}, {"compare", parquet}, {"compare", half}, {"compare", "--demo", "--book", book}, {"county", "verify", "--book", book},
		{"compare", "--demo", "--market", operation}, {"compare", "--demo", "--county-file", operation}, {"compare", "--demo", "--county-table", workbook}, {"compare", "--demo", "--since", operation},
		{"county", "import", table, "--book", filepath.Join(folder, "mine.db")}, {"new", "--record", operation, "--out", filepath.Join(folder, "new.yaml")},
	} {
		printed, talk := talks(t, exitInput, args...)
		if printed != "" || !strings.Contains(talk, "hint: ") {
			t.Errorf("%v: %s%s", args, printed, talk)
		}
	}
}
