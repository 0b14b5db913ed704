package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// tableHoles are tables that are wrong as a whole, and what is said of them.
var tableHoles = []struct{ why, text, says, hint string }{
	{"the farm is blank throughout", "client,farm,county,commodity,base_acres\na,,99001,corn,120\na,,99001,soybeans,80\n", "line 1 column 2: farm is blank in every row", "give the FSA farm number"},
	{"the commodity is blank throughout", "client,farm,county,commodity,base_acres\na,0417,99001,,120\n", "line 1 column 4: commodity is blank in every row", "give the covered crop"},
	{"the crop year is blank throughout", "client,farm,county,commodity,base_acres,crop_year\na,0417,99001,corn,120,\na,0417,99001,soybeans,80,-\n", "line 1 column 6: crop_year is blank in every row", "--crop-year"},
	{"a heading is near a known one", "client,farm,county,commodity,base_acres,PLC yeild\na,0417,99001,corn,120,150\n", `line 1 column 6: the heading "PLC yeild" is not known`, "did you mean payment_yield?"},
	{"a key column has another heading", "client,farm,county coed,commodity,base acrs\na,0417,99001,corn,120\n", `line 1 column 3: the heading "county coed" is not known`, "did you mean base_acres?"},
}

// Such a table is refused before anything is answered, with one error for the column
// and not one for each row, and no folder of results is made.
func TestTablesWrongAsAWhole(t *testing.T) {
	for _, c := range tableHoles {
		folder := t.TempDir()
		table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
		if err := os.WriteFile(table, []byte(c.text), 0o600); err != nil {
			t.Fatal(err)
		}
		for _, args := range [][]string{{"compare", table, "--book", "none"}, {"batch", table, "--out", out, "--book", "none"}} {
			code, talk := ran(args...)
			errors := strings.Count(talk, "error: ")
			if want := strings.Count(c.text[:strings.Index(c.text, "\n")], " "); code != exitInput || !strings.Contains(talk, c.says) || !strings.Contains(talk, c.hint) || errors != max(1, want) {
				t.Errorf("%s, %s: exit %d, %d errors, want %d and %q\n%s", c.why, args[0], code, errors, exitInput, c.says, talk)
			}
		}
		if _, err := os.Stat(out); err == nil {
			t.Errorf("%s: the folder of results is made", c.why)
		}
	}
}

// A batch whose columns of names are all blank would be one operation with one limit.
// One name in one of them says who belongs together; a single operation needs none.
func TestNamesBlankThroughout(t *testing.T) {
	folder := t.TempDir()
	table, out := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out")
	for rows, want := range map[string]int{",,0417,99001,corn,120\n,,0418,99001,corn,120\n": exitInput, ",,0417,99001,corn,120\n,ann,0418,99001,corn,120\n": exitDone} {
		if err := os.WriteFile(table, []byte("client,operation,farm,county,commodity,base_acres\n"+rows), 0o600); err != nil {
			t.Fatal(err)
		}
		code, talk := ran("batch", table, "--out", out, "--crop-year", "2026", "--book", "none", "--draws", "16")
		if code != want || code == exitInput && (!strings.Contains(talk, "client is blank in every row") || !strings.Contains(talk, "operation is blank in every row")) {
			t.Errorf("batch of %q: exit %d, want %d\n%s", rows, code, want, talk)
		}
		if code, talk := ran("check", table, "--crop-year", "2026", "--book", "none"); want == exitInput && code != exitDone {
			t.Errorf("check: exit %d\n%s", code, talk)
		}
		os.RemoveAll(out)
	}
}

// With --crop-year a blank column of crop years asks nothing else.
func TestBlankCropYearsWithTheFlag(t *testing.T) {
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.csv")
	if err := os.WriteFile(table, []byte(tableHoles[2].text), 0o600); err != nil {
		t.Fatal(err)
	}
	for _, args := range [][]string{{"check", table, "--book", "none"}, {"batch", table, "--out", filepath.Join(folder, "out"), "--book", "none", "--draws", "16"}} {
		if code, talk := ran(append(args, "--crop-year", "2026")...); code != exitDone {
			t.Errorf("%s: exit %d\n%s", args[0], code, talk)
		}
	}
}

// A workbook's TRUE in base_acres is refused by row, column and value; today's 1 acre
// would have been answered.
func TestWorkbookTruthIsRefused(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	for cell, row := range map[string][]any{"A1": {"farm", "county", "commodity", "base_acres"}, "A2": {"0417", "99001", "corn", 120}, "A3": {"0417", "99001", "soybeans", true}} {
		if err := book.SetSheetRow("Sheet1", cell, &row); err != nil {
			t.Fatal(err)
		}
	}
	folder := t.TempDir()
	table := filepath.Join(folder, "farms.xlsx")
	if err := book.SaveAs(table); err != nil {
		t.Fatal(err)
	}
	code, talk := ran("compare", table, "--crop-year", "2026", "--book", "none")
	if code != exitInput || !strings.Contains(talk, "line 3 column 4: base_acres is TRUE, a yes or no") || !strings.Contains(talk, "hint: type the value itself") {
		t.Errorf("exit %d\n%s", code, talk)
	}
	out := filepath.Join(folder, "out")
	code, talk = ran("batch", table, "--out", out, "--crop-year", "2026", "--book", "none", "--draws", "16")
	refused, err := os.ReadFile(filepath.Join(out, "refused.csv"))
	if code != exitSome || err != nil || !strings.Contains(string(refused), "3,base_acres,TRUE,") {
		t.Errorf("exit %d, %v\n%s\n%s", code, err, refused, talk)
	}
}
