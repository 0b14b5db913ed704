package main

import (
	"bytes"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// talks carries out a command line that ends with a code, and returns what it said on
// both sides.
func talks(t *testing.T, code int, args ...string) (stdout, stderr string) {
	t.Helper()
	var out, talk bytes.Buffer
	if got := run(args, &out, &talk); got != code {
		t.Fatalf("%v: exit %d, want %d: %s", args, got, code, talk.String())
	}
	return out.String(), talk.String()
}

const oneFarmTable = "farm,county,commodity,base_acres,payment_yield\n0417,99001,corn,120,150\n"

func writeText(t *testing.T, path, text string) string {
	t.Helper()
	if err := os.WriteFile(path, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	return path
}

// Every verb that takes a county table tells what is noted of it.
func TestNotesOfCountyTables(t *testing.T) {
	folder := t.TempDir()
	table := countyWorkbookOf(t, 187.30, "Moon phase")
	farms := writeText(t, filepath.Join(folder, "farms.csv"), oneFarmTable)
	usual := []string{"--county-table", table, "--book", "none", "--today", demoToday}
	for _, args := range [][]string{
		{"compare", farms, "--draws", "256"}, {"batch", farms, "--draws", "256", "--out", filepath.Join(folder, "out")},
		{"handout", "99001", "--draws", "256", "--commodity", "corn", "--out", filepath.Join(folder, "sheets")}, {"county", "show", "99001"},
	} {
		if _, talk := talks(t, exitDone, append(args, usual...)...); !strings.Contains(talk, "heading not known") || !strings.Contains(talk, "Moon phase") {
			t.Errorf("%v says nothing of the heading that is not known: %s", args[:2], talk)
		}
	}
}

// Of several files those that can be read are taken, every other is named: exit 4.
func TestCountyImportTakesWhatItCan(t *testing.T) {
	folder := t.TempDir()
	good := countyWorkbook(t)
	bad := writeText(t, filepath.Join(folder, "bad.csv"), "one,two\n1,2\n")
	absent, book := filepath.Join(folder, "absent.csv"), filepath.Join(folder, "mine.db")
	out, talk := talks(t, exitSome, "county", "import", absent, good, bad, "--book", book, "--today", demoToday)
	if !strings.HasPrefix(out, filepath.Base(good)+": FSA") || strings.Count(out, "\n") != 1 {
		t.Errorf("imported: %s", out)
	}
	for _, name := range []string{absent, bad} {
		if !strings.Contains(talk, "error: "+name) {
			t.Errorf("%s is not named: %s", name, talk)
		}
	}
	if out, _ := talks(t, exitDone, "county", "list", "--book", book); !strings.Contains(out, "99001  Alder") {
		t.Errorf("the book has %s", out)
	}
	if out, _ := talks(t, exitInput, "county", "import", absent, bad, "--book", book, "--today", demoToday); out != "" {
		t.Errorf("nothing can be read, and imported is %s", out)
	}
}

// run.json names every input with its checksum; a run goes on with the same ones alone,
// wherever they lie, and says which is another and what to do.
func TestResumeWantsTheSameInputs(t *testing.T) {
	folder := t.TempDir()
	file := func(name, text string) string { return writeText(t, filepath.Join(folder, name), text) }
	demo := func(name string) string {
		text, err := demoFiles.ReadFile("demo/" + name)
		if err != nil {
			t.Fatal(err)
		}
		return string(text)
	}
	farms, county, market := file("farms.csv", oneFarmTable), file("alder.yaml", demo("alder.yaml")), file("market.yaml", demo("market.yaml"))
	birch, table := file("birch.yaml", demo("birch.yaml")), countyWorkbook(t)
	counties := filepath.Join(folder, "counties")
	if err := os.Mkdir(counties, 0o755); err != nil {
		t.Fatal(err)
	}
	file("counties/birch.yaml", demo("birch.yaml"))
	book, otherBook := filepath.Join(folder, "mine.db"), filepath.Join(folder, "other.db")
	talks(t, exitDone, "county", "import", table, "--book", book, "--today", demoToday)
	talks(t, exitDone, "county", "import", countyWorkbookOf(t, 150), "--book", otherBook, "--today", demoToday)
	out := filepath.Join(folder, "out")
	asked := map[string]string{"--county-file": county, "--county-folder": counties, "--county-table": table, "--book": book, "--market": market, "--draws": "256", "--today": demoToday, "--close": "2", "--least": "10"}
	again := func(code int, farms, flag, value string) string {
		args := []string{"batch", farms, "--out", out, "--resume"}
		for name, usual := range asked {
			if name == flag {
				usual = value
			}
			args = append(args, name, usual)
		}
		if _, usual := asked[flag]; flag != "" && !usual {
			args = append(args, flag, value)
		}
		_, talk := talks(t, code, args...)
		return talk
	}
	again(exitDone, farms, "", "")
	var audit struct {
		Table  struct{ Path, SHA256 string }
		Inputs []struct{ What, Path, SHA256 string }
	}
	text, err := os.ReadFile(filepath.Join(out, "run.json"))
	if err == nil {
		err = json.Unmarshal(text, &audit)
	}
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"county file " + county, "county folder " + counties, "county table " + table, "county book " + book, "market file " + market}
	for i, input := range audit.Inputs {
		if i >= len(want) || input.What+" "+input.Path != want[i] || len(input.SHA256) != 64 {
			t.Errorf("input %d is %+v, want %v", i, input, want)
		}
	}
	if len(audit.Inputs) != len(want) || audit.Table.Path != farms || len(audit.Table.SHA256) != 64 {
		t.Errorf("inputs %+v of table %+v", audit.Inputs, audit.Table)
	}
	moved := file("moved.yaml", demo("market.yaml"))
	again(exitDone, farms, "--market", moved)
	file("counties/other.yaml", strings.Replace(demo("alder.yaml"), "99001", "99005", 1))
	if talk := again(exitUsage, farms, "", ""); !strings.Contains(talk, "the county folder "+counties) {
		t.Errorf("one more county file: %s", talk)
	}
	os.Remove(filepath.Join(counties, "other.yaml"))
	for flag, other := range map[string]string{
		"--county-file": birch, "--county-table": countyWorkbookOf(t, 151), "--book": otherBook, "--market": file("new.yaml", strings.Replace(demo("market.yaml"), "4.55", "4.65", 1)),
		"--draws": "512", "--today": "2026-11-26", "--close": "3", "--least": "4", "--builtin": "none",
	} {
		talk := again(exitUsage, farms, flag, other)
		if flag == "--builtin" {
			other = "without the built-in county tables was false and is now true"
		}
		if named := strings.Contains(talk, other); !named || !strings.Contains(talk, "another run") || !strings.Contains(talk, "hint: give the same inputs and settings as before") {
			t.Errorf("%s %s: %s", flag, other, talk)
		}
	}
	if talk := again(exitUsage, farms, "--book", "none"); !strings.Contains(talk, "county book") {
		t.Errorf("no book: %s", talk)
	}
	if talk := again(exitUsage, file("others.csv", strings.Replace(oneFarmTable, "120", "121", 1)), "", ""); !strings.Contains(talk, "the table of farms "+filepath.Join(folder, "others.csv")) {
		t.Errorf("another table: %s", talk)
	}
	again(exitDone, farms, "", "")
}

// A table that names nobody answers each farm by itself, as a table of that farm alone
// does, and says so first.
func TestFarmsOfNobodyStandAlone(t *testing.T) {
	folder := t.TempDir()
	heads := "farm,county,commodity,base_acres,payment_yield,election_on_record\n"
	rows := []string{"0417,99001,corn,9000,150,PLC\n", "0417,99001,soybeans,9000,40,PLC\n", "0588,99001,corn,9000,150,ARC-CO\n"}
	all := writeText(t, filepath.Join(folder, "all.csv"), heads+strings.Join(rows, ""))
	out := filepath.Join(folder, "all")
	_, talk := talks(t, exitDone, batchArgs(all, out, "--draws", "256")...)
	const said = "This table has no client, operation or producer column. Each farm is answered by itself, and no payment limit is applied across farms."
	if !strings.HasPrefix(talk, "fencerow: note: "+said) {
		t.Errorf("first on the screen is %s", talk)
	}
	text, _ := os.ReadFile(filepath.Join(out, "run.json"))
	if !strings.Contains(string(text), "\"each_farm_alone\": true") {
		t.Errorf("run.json: %s", text)
	}
	if totals := sheetRows(t, filepath.Join(out, "summary.xlsx"), "Totals"); totals[1][0] != said {
		t.Errorf("the summary begins with %v", totals[:3])
	}
	operations, people := readRows(t, filepath.Join(out, "operations.csv")), readRows(t, filepath.Join(out, "people.csv"))
	if len(operations) != 3 || len(people) != 3 {
		t.Fatalf("%d operations and %d persons, want 2 and 2", len(operations)-1, len(people)-1)
	}
	for i, one := range []string{rows[0] + rows[1], rows[2]} {
		alone := filepath.Join(folder, "alone", operations[i+1][1])
		table := writeText(t, filepath.Join(folder, fmt.Sprintf("alone%d.csv", i)), heads+one)
		runs(t, batchArgs(table, alone, "--draws", "256")...)
		if got := readRows(t, filepath.Join(alone, "people.csv"))[1]; strings.Join(got, " ") != strings.Join(people[i+1], " ") {
			t.Errorf("farm %d: alone %v, of two %v", i+1, got, people[i+1])
		}
	}
}

// sheetRows are the cells of a sheet, numbers as they are stored.
func sheetRows(t *testing.T, path, sheet string) [][]string {
	t.Helper()
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	rows, err := book.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	return rows
}
