package main

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// countyWorkbook writes an ARC-CO county table of crop year 2026 with one
// invented county in the agency's layout, and returns its path.
func countyWorkbook(t *testing.T) string { return countyWorkbookOf(t, 187.30) }

// countyWorkbookOf has another benchmark yield of corn, and headings beside those known.
func countyWorkbookOf(t *testing.T, corn float64, more ...any) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	headings := []any{"ST_Cty", "State Name", "County Name", "Sub County", "Crop Name", "Unit", "ARC-CO Yield Designation"}
	for year := 2020; year <= 2024; year++ {
		headings = append(headings, fmt.Sprintf("%d trend adjusted (county yield or 80%% of T)", year))
	}
	headings = append(append(headings, "2026 Bench Mark (2020-24 olympic avg)"), more...)
	for i, row := range [][]any{headings,
		{99001, "Nowhere", "Alder", nil, "Corn", "Bushel", "All", 184.20, 187.00, 193.10, 178.43, 190.70, corn},
		{99001, "Nowhere", "Alder", nil, "Soybeans", "Bushel", "All", 52, 55, 53, 50, 56, 53.33},
	} {
		if err := book.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &row); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "county.xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// The same farms as an operation file and as a table, with counties by name from
// the county table, give the same JSON with figures for both programs.
func TestTableGivesTheSameAnswer(t *testing.T) {
	folder, county := t.TempDir(), countyWorkbook(t)
	answers := map[string]string{}
	for name, content := range map[string]string{
		"farms.yaml": `format: fencerow/operation/1
crop_years: [2026]
producers: [{id: ann}, {id: bob}]
farms:
  - farm: "0417"
    county: "99001"
    election_on_record: {corn: PLC, soybeans: ARC-CO}
    shares: {ann: 0.6, bob: 0.4}
    lease: share
    bases:
      - {commodity: corn, base_acres: 1120.5, payment_yield: 150}
      - {commodity: soybeans, base_acres: 80, payment_yield: 38}
`,
		"farms.csv": `Farm;State;County;Commodity;Crop Year;Base Acres;Payment Yield;Election on record;Lease;Producer;Share
0417;99;Alder County;CORN;2026;1,120.50;150;PLC;share;ann;60%
0417;99;ALDER;CORN;2026;1120.5;150;;;bob;40%
0417;99;1;Soybeans;2026;80;38;ARC County;;ann;0.6
0417;99;001;Soybeans;2026;80;38;ARCCO;;bob;0.4
`} {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, []byte(content), 0o600); err != nil {
			t.Fatal(err)
		}
		answers[name] = runs(t, "compare", path, "--county-table", county, "--book", "none", "--today", demoToday, "--draws", "4096", "--json")
	}
	if answers["farms.yaml"] != answers["farms.csv"] {
		t.Error("the table gives another answer than the operation file")
	}
	if text := answers["farms.csv"]; strings.Contains(text, `"leader": "none"`) || !strings.Contains(text, `"benchmark_yield": 187.30`) {
		t.Error("there are no figures of ARC-CO to hold against each other")
	}
}
