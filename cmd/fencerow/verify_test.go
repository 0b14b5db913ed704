package main

import (
	"database/sql"
	"os"
	"path/filepath"
	"strings"
	"testing"
)

// bookBehind imports an invented county table into a book and then changes the book behind
// the program's back.
func bookBehind(t *testing.T, statement string) (book, table string) {
	t.Helper()
	book, table = filepath.Join(t.TempDir(), "counties.db"), countyWorkbook(t)
	talks(t, exitDone, "county", "import", table, "--book", book, "--today", demoToday)
	db, err := sql.Open("sqlite", book)
	if err != nil {
		t.Fatal(err)
	}
	defer db.Close()
	if statement != "" {
		if _, err := db.Exec(statement); err != nil {
			t.Fatal(err)
		}
	}
	return book, table
}

// A sound book is one line and exit 0, with the agency's file or without; a row that cannot
// be is exit 3 with the place, the value and what to do, wherever the book is used.
func TestCountyVerify(t *testing.T) {
	book, table := bookBehind(t, "")
	out, talk := talks(t, exitDone, "county", "verify", table, "--book", book)
	if !strings.HasPrefix(out, "sound: "+book+": 1 files, ") || !strings.Contains(out, ", 1 files as imported; built-in tables, ") || strings.Count(out, "\n") != 1 || talk != "" {
		t.Errorf("%s%s", out, talk)
	}
	if out, _ := talks(t, exitDone, "county", "verify", "--book", "none", "--json"); !strings.Contains(out, `"county_book": null`) {
		t.Error(out)
	}
	farms := writeText(t, filepath.Join(t.TempDir(), "farms.csv"), oneFarmTable)
	for statement, said := range map[string]string{
		"UPDATE value SET number = 'NaN'":                   "is NaN",
		"UPDATE value SET number = -50":                     "is -50",
		"UPDATE value SET number = 9e999":                   "is +Inf",
		"UPDATE value SET slot = slot + 7":                  "among its yields",
		"UPDATE value SET crop_year = 20250":                "is 20250",
		"UPDATE series SET commodity = commodity || 'gold'": `gold" is not known`,
	} {
		book, _ := bookBehind(t, statement)
		for _, args := range [][]string{{"county", "verify"}, {"compare", farms, "--today", demoToday, "--draws", "64"}, {"county", "show", "99001", "--today", demoToday}, {"explain", farms, "--today", demoToday, "--farm", "0417", "--commodity", "corn", "--mya", "corn=4", "--county-yield", "170"}} {
			out, talk := talks(t, exitInput, append(args, "--book", book)...)
			if !strings.Contains(talk, said) || !strings.Contains(talk, "hint: no agency's file gives that") || out != "" {
				t.Errorf("%s: %v: %s%s", statement, args[:2], out, talk)
			}
		}
	}
}

// A yield that cannot be right gives no lead: it is left out, and the run says so.
func TestImplausibleYieldOfBook(t *testing.T) {
	book, _ := bookBehind(t, "UPDATE value SET number = 9000 WHERE series IN (SELECT id FROM series WHERE commodity = 'corn')")
	farms := writeText(t, filepath.Join(t.TempDir(), "farms.csv"), oneFarmTable)
	out, talk := talks(t, exitDone, "county", "show", "99001", "--today", demoToday, "--book", book)
	if strings.Contains(out, "9000") || strings.Contains(out, "9,000") || !strings.Contains(talk, "are not plausible and are left out. To list them: fencerow county verify") {
		t.Errorf("%s%s", out, talk)
	}
	if _, talk := talks(t, exitDone, "county", "verify", "--book", book); !strings.Contains(talk, "note: as the agency has it, left out of answers: unit_suspect: FSA corn adjusted") {
		t.Error(talk)
	}
	_, talk = talks(t, exitDone, "compare", farms, "--today", demoToday, "--draws", "64", "--book", book)
	if !strings.Contains(talk, "left out") {
		t.Error(talk)
	}
}

// A book of no byte says how it is filled; a folder is no book.
func TestBookOfNoByte(t *testing.T) {
	book := writeText(t, filepath.Join(t.TempDir(), "counties.db"), "")
	for path, said := range map[string]string{book: "hint: fill it with: fencerow county import FILE --book " + book, filepath.Dir(book): "a folder or a device"} {
		if _, talk := talks(t, exitInput, "compare", "--demo", "--draws", "64", "--book", path); !strings.Contains(talk, said) {
			t.Error(talk)
		}
	}
	talks(t, exitDone, "county", "import", countyWorkbook(t), "--book", book, "--today", demoToday)
	if info, err := os.Stat(book); err != nil || info.Size() == 0 {
		t.Error(info, err)
	}
}
