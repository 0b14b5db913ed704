package main

import (
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/xuri/excelize/v2"
)

// hostileNames are names of farms that steer a screen, work out in a spreadsheet, or pass for
// another farm, with the end of the sentence that refuses them.
var hostileNames = map[string]string{
	"=1+1": "begins with", "+1+1": "begins with", "-2+3": "begins with", "@SUM(A1)": "begins with", "=cmd|' /C calc'!A0": "begins with",
	"04\x1b[2J17": "control character", "04\u202e17": "not seen, U+202E", "04\u200b17": "not seen, U+200B",
	"\uff10417": "looks like another", "\u0410nn": "looks like another", "A\u00a0B": "looks like another", strings.Repeat("x", 101): "has more than 100 letters",
}

// rowOf is a farm of that name, as the cells of a table.
func rowOf(name string) []string { return []string{name, "99001", "corn", "120", "150"} }

// tablesOf writes a table with one farm in each format.
func tablesOf(t *testing.T, name string) (paths []string) {
	t.Helper()
	folder, heads := t.TempDir(), strings.Split("farm,county,commodity,base_acres,payment_yield", ",")
	at := func(file string) string {
		paths = append(paths, filepath.Join(folder, file))
		return paths[len(paths)-1]
	}
	writeRows(t, at("farms.csv"), [][]string{heads, rowOf(name)})
	book := excelize.NewFile()
	defer book.Close()
	for i, cells := range [][]string{heads, rowOf(name)} {
		if err := book.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &cells); err != nil {
			t.Fatal(err)
		}
	}
	if !strings.Contains(name, "\x1b") { // no workbook can hold it
		if err := book.SaveAs(at("farms.xlsx")); err != nil {
			t.Fatal(err)
		}
	}
	type row struct {
		Farm    string  `parquet:"farm"`
		County  string  `parquet:"county"`
		Crop    string  `parquet:"commodity"`
		Acres   float64 `parquet:"base_acres"`
		Payment float64 `parquet:"payment_yield"`
	}
	if err := parquet.WriteFile(at("farms.parquet"), []row{{name, "99001", "corn", 120, 150}}); err != nil {
		t.Fatal(err)
	}
	return paths
}

// Every format refuses such a name with its line, and what is told and written of it steers
// nothing: no control letter on the screen, no formula in refused.csv.
func TestHostileNames(t *testing.T) {
	for name, why := range hostileNames {
		for _, path := range tablesOf(t, name) {
			out := filepath.Join(t.TempDir(), "out")
			printed, talk := talks(t, exitSome, batchArgs(path, out, "--draws", "64")...)
			rows := readRows(t, filepath.Join(out, "refused.csv"))
			if len(rows) != 2 || rows[1][0] == "" || rows[1][1] != "farm" || !strings.Contains(rows[1][3], why) || rows[1][4] == "" || strings.IndexByte("=+-@\t\r", rows[1][2][0]) >= 0 {
				t.Errorf("%s: %q: refused %q", filepath.Base(path), name, rows)
			}
			if strings.ContainsAny(printed+talk, "\x1b\u202e\u200b") {
				t.Errorf("%s: %q steers the screen: %q", filepath.Base(path), name, talk)
			}
			for _, kind := range []string{"results.csv", "farms.csv", "exceptions.csv", "calls.csv"} {
				if text, err := os.ReadFile(filepath.Join(out, kind)); err == nil && strings.Contains(string(text), name) {
					t.Errorf("%s has %q", kind, name)
				}
			}
		}
		file := writeText(t, filepath.Join(t.TempDir(), "farms.yaml"), fmt.Sprintf("format: fencerow/operation/1\ncrop_years: [2026]\nfarms:\n  - farm: %s\n    county: \"99001\"\n    bases: [{commodity: corn, base_acres: 120, payment_yield: 150}]\n", quotedYAML(name)))
		if _, talk := talks(t, exitInput, "compare", file, "--draws", "64", "--book", "none", "--today", demoToday); !strings.Contains(talk, file+" line 4 column") || !strings.Contains(talk, why) || strings.ContainsAny(talk, "\x1b\u202e\u200b") {
			t.Errorf("YAML: %q: %s", name, talk)
		}
	}
}

// quotedYAML writes a name in quotation marks, control letters as their numbers.
func quotedYAML(name string) string {
	return `"` + strings.NewReplacer("\x1b", `\x1b`, `\`, `\\`).Replace(name) + `"`
}

// Values that are no names stand in refused.csv so that no spreadsheet works them out, and
// numbers stay numbers.
func TestRefusedValuesAreNoFormulas(t *testing.T) {
	folder := t.TempDir()
	writeRows(t, filepath.Join(folder, "farms.csv"), [][]string{strings.Split("farm,county,commodity,base_acres,payment_yield", ","), {"1", "99001", "corn", "=2+3", "150"}, {"2", "99001", "@corn", "120", "150"}, {"3", "99001", "corn", "-3", "150"}, {"4", "99001", "corn", "120", "150"}})
	talks(t, exitSome, batchArgs(filepath.Join(folder, "farms.csv"), filepath.Join(folder, "out"), "--draws", "64")...)
	text, err := os.Open(filepath.Join(folder, "out", "refused.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer text.Close()
	rows, err := csv.NewReader(text).ReadAll()
	if err != nil || len(rows) != 4 || rows[1][2] != "'=2+3" || rows[2][2] != "'@corn" || rows[3][2] != "-3" {
		t.Errorf("%q, %v", rows, err)
	}
}

// A file whose name has a line break or steers the screen cannot pass for a line of the
// program.
func TestHostileFileNames(t *testing.T) {
	for _, name := range []string{"a\nfencerow: wrote b.csv", "a\rfencerow: done", "a\x1b[2Jb.yaml", "a\u202egnp.yaml"} {
		_, talk := talks(t, exitInput, "compare", name, "--book", "none", "--today", demoToday)
		if lines := strings.Split(strings.TrimSpace(talk), "\n"); len(lines) != 2 || strings.ContainsAny(talk, "\r\x1b\u202e") {
			t.Errorf("%q: %q", name, talk)
		}
	}
}
