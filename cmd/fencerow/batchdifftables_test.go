package main

import (
	"maps"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/xuri/excelize/v2"
)

// farmRow is a row of a table of farms as a Parquet file has it.
type farmRow struct {
	Client    string  `parquet:"client"`
	Operation string  `parquet:"operation"`
	Farm      string  `parquet:"farm"`
	County    string  `parquet:"county"`
	Commodity string  `parquet:"commodity"`
	CropYear  string  `parquet:"crop_year"`
	Acres     string  `parquet:"base_acres"`
	Yield     string  `parquet:"payment_yield"`
	Irrigated *string `parquet:"irrigated_share,optional"`
	Record    *string `parquet:"election_on_record,optional"`
	Contract  string  `parquet:"contract"`
	Producer  string  `parquet:"producer"`
	Share     string  `parquet:"share"`
}

// tableOf writes rows of manyFarms as a table of a kind, ".csv", ".xlsx" or ".parquet".
func tableOf(t *testing.T, kind string, rows [][]string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "farms"+kind)
	switch kind {
	case ".csv":
		writeRows(t, path, rows)
	case ".xlsx":
		book := excelize.NewFile()
		defer book.Close()
		for i, row := range rows {
			cell, _ := excelize.CoordinatesToCellName(1, i+1)
			if err := book.SetSheetRow("Sheet1", cell, &row); err != nil {
				t.Fatal(err)
			}
		}
		if err := book.SaveAs(path); err != nil {
			t.Fatal(err)
		}
	case ".parquet":
		var all []farmRow
		given := func(text string) *string {
			if text == "" {
				return nil
			}
			return &text
		}
		for _, r := range rows[1:] {
			all = append(all, farmRow{r[0], r[1], r[2], r[3], r[4], r[5], r[6], r[7], given(r[8]), given(r[9]), r[10], r[11], r[12]})
		}
		if err := parquet.WriteFile(path, all); err != nil {
			t.Fatal(err)
		}
	}
	return path
}

// diffRows are the lines of the difference of two folders.
func diffRows(t *testing.T, before, after string) [][]string {
	t.Helper()
	lines := filepath.Join(t.TempDir(), "diff.csv")
	runs(t, "batch", "diff", before, after, "--out", lines)
	return readRows(t, lines)[1:]
}

// dearMarket writes the demo's prices with another price of corn in 2026.
func dearMarket(t *testing.T) string {
	t.Helper()
	demo, err := os.ReadFile("demo/market.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return writeText(t, filepath.Join(t.TempDir(), "dear.yaml"), strings.Replace(string(demo), "{price: 4.55}", "{price: 3.70}", 1))
}

// batched answers a table and returns the folder.
func batched(t *testing.T, table string, more ...string) string {
	t.Helper()
	folder := filepath.Join(t.TempDir(), "out")
	runs(t, batchArgs(table, folder, append([]string{"--draws", "256"}, more...)...)...)
	return folder
}

// Tables of every kind are read again: the same farms give the same lines, and a table of
// another kind with the same rows has moved nothing.
func TestBatchDiffOfEveryKindOfTable(t *testing.T) {
	rows, dear := manyFarms(12, 7), dearMarket(t)
	moved := map[string][][]string{}
	folders := map[string]string{}
	for _, kind := range []string{".csv", ".xlsx", ".parquet"} {
		table := tableOf(t, kind, rows)
		folders[kind] = batched(t, table)
		moved[kind] = diffRows(t, folders[kind], batched(t, table, "--market", dear))
		if len(moved[kind]) == 0 || !slices.EqualFunc(moved[kind], moved[".csv"], slices.Equal[[]string]) {
			t.Errorf("%s: %d lines moved, of .csv %d: %v", kind, len(moved[kind]), len(moved[".csv"]), moved[kind])
		}
		if lines := diffRows(t, folders[".csv"], folders[kind]); len(lines) != 0 {
			t.Errorf("%s beside .csv: %v", kind, lines)
		}
	}
	for _, line := range moved[".csv"] {
		if line[3] != "corn" || line[17] != "price" {
			t.Errorf("%v", line)
		}
	}
	changed := slices.Clone(rows)
	changed[1], changed[2] = slices.Clone(rows[1]), slices.Clone(rows[2])
	changed[1][7], changed[2][7] = "99", "99" // both producers of the first base
	for _, kind := range []string{".xlsx", ".parquet"} {
		lines := diffRows(t, folders[".csv"], batched(t, tableOf(t, kind, changed)))
		if len(lines) != 1 || lines[0][17] != "record" || lines[0][20] != "PLC yield "+rows[1][7]+" -> 99" {
			t.Errorf("%s, another PLC yield: %v", kind, lines)
		}
	}
}

// Of several crop years each has its lines; a year that one run alone has is no line of
// both.
func TestBatchDiffOfSeveralCropYears(t *testing.T) {
	rows := manyFarms(12, 7)
	for i := range rows {
		rows[i] = slices.Delete(slices.Clone(rows[i]), 5, 6) // without crop_year
	}
	table := filepath.Join(t.TempDir(), "farms.csv")
	writeRows(t, table, rows)
	both := batched(t, table, "--crop-year", "2026,2027")
	dear := batched(t, table, "--crop-year", "2026,2027", "--market", dearMarket(t))
	old, now := resultsByYear(t, both), resultsByYear(t, dear)
	listed := map[string]bool{}
	for _, line := range diffRows(t, both, dear) {
		key := strings.Join(line[2:5], " ")
		if listed[key] = true; line[3] != "corn" || line[17] != "price" {
			t.Errorf("%v", line)
		}
	}
	years := map[string]int{}
	for key, was := range old {
		if moved := was != now[key]; moved != listed[key] {
			t.Errorf("%s from %s to %s, listed %v", key, was, now[key], listed[key])
		}
		years[key[len(key)-4:]]++
	}
	if len(listed) == 0 || years["2026"] != years["2027"] || years["2026"] == 0 {
		t.Fatalf("%d listed, lines by year %v", len(listed), years)
	}
	one := diffRows(t, batched(t, table, "--crop-year", "2026"), both)
	if len(one) != years["2027"] || slices.ContainsFunc(one, func(line []string) bool { return line[17] != "only_in_after" || line[4] != "2027" }) {
		t.Errorf("2026 beside 2026 and 2027: %v", one)
	}
	other := diffRows(t, batched(t, table, "--crop-year", "2026"), batched(t, table, "--crop-year", "2027,2026", "--market", dearMarket(t)))
	causes := map[string]int{}
	for _, line := range other {
		causes[line[17]]++
	}
	if keys := slices.Sorted(maps.Keys(causes)); !slices.Equal(keys, []string{"only_in_after", "price"}) {
		t.Errorf("with another price too: %v", causes)
	}
}

// resultsByYear are the figures that move a line, by farm, crop and crop year.
func resultsByYear(t *testing.T, folder string) map[string]string {
	t.Helper()
	all := map[string]string{}
	rows := readRows(t, filepath.Join(folder, "results.csv"))
	column := func(name string) int { return slices.Index(rows[0], name) }
	for _, row := range rows[1:] {
		all[row[column("farm")]+" "+row[column("commodity")]+" "+row[column("crop_year")]] = strings.Join([]string{row[column("leader")], row[column("difference_mean")], row[column("plc_mean")], row[column("arc_co_mean")]}, " ")
	}
	return all
}

// The figures of a county table are kept with the run: another benchmark yield is a county
// yield, though the first table is gone, and counties named in the rows are found again.
func TestBatchDiffOfCountyTables(t *testing.T) {
	rows := [][]string{{"farm", "county", "state", "commodity", "crop_year", "base_acres", "payment_yield"}}
	for _, farm := range []string{"1", "2", "3"} {
		rows = append(rows, []string{farm, "Alder", "99", "corn", "2026", "100", "15" + farm}, []string{farm, "Alder", "99", "soybeans", "2026", "80", "4" + farm})
	}
	table := filepath.Join(t.TempDir(), "farms.csv")
	writeRows(t, table, rows)
	answer := func(county string) string {
		folder := filepath.Join(t.TempDir(), "out")
		runs(t, "batch", table, "--out", folder, "--county-table", county, "--market", "demo/market.yaml", "--book", "none", "--today", demoToday, "--draws", "256")
		return folder
	}
	first := countyWorkbookOf(t, 187.30)
	before := answer(first)
	if err := os.Remove(first); err != nil {
		t.Fatal(err)
	}
	lines := diffRows(t, before, answer(countyWorkbookOf(t, 170)))
	if len(lines) != 3 {
		t.Fatalf("%d lines moved, want corn of three farms: %v", len(lines), lines)
	}
	for _, line := range lines {
		if line[3] != "corn" || line[17] != "county_yield" || !strings.Contains(line[20], "benchmark yield of county 99001 187.30 -> 170.00") {
			t.Errorf("%v", line)
		}
	}
}
