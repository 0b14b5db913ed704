package table

import (
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"testing"

	"github.com/stretchr/testify/require"

	"fencerow/program/crop"
)

// The genuine workbook is the PY2023 table of USDA FSA (sheet of 2025-02-03)
// cut to five states, with its heading lines and cells as published. The CSV is
// the same table by another route: all states and years in one text file. They
// lie beside the repository and are not part of it.
const (
	genuineWorkbook = "../../../../shared/data/fsa/raw/arcco_county_py2023_five_states_cut.xlsx"
	genuineCSV      = "../../../../shared/data/fsa/arcco_county_py2019_2025.csv.gz"
	genuineRows     = 2032 // PY2023 rows of California, Delaware, Iowa, Kansas, Oregon
)

func genuine(t *testing.T, path string) {
	t.Helper()
	if _, err := os.Stat(path); err != nil {
		fmt.Printf("NOT CHECKED, no file %s: the reader against a published county table\n", path)
		t.Skip("needs the shared data")
	}
}

func TestGenuineWorkbookAgreesWithThePublishedTableCellByCell(t *testing.T) {
	genuine(t, genuineWorkbook)
	genuine(t, genuineCSV)
	_, rows, notes, err := ReadSheet(genuineWorkbook)
	require.NoError(t, err)
	require.Empty(t, notes, "an untouched agency table is understood to the last line")

	published := publishedRows(t)
	require.Len(t, published, genuineRows)
	checked, cells := 0, 0
	for _, r := range rows {
		want, ok := published[r.key()]
		require.Truef(t, ok, "line %d: %v is not in the published table", r.Line, r.key())
		delete(published, r.key())
		require.Equal(t, want["state_name"], r.StateName)
		require.Equal(t, want["county_name"], r.CountyName)
		for i, name := range figureNames {
			c := firstFigure + column(i)
			compare(t, r, name, want[name], *r.figure(c))
			cells++
		}
		checked++
	}
	require.Empty(t, published, "published rows that the reader did not return")
	fmt.Printf("county workbook, rows: checked %d of %d (%d figures)\n", checked, genuineRows, cells)
	require.Equal(t, genuineRows, checked)
}

// figureNames are the CSV's names of the columns from firstFigure on.
var figureNames = []string{
	"yield_lag6", "yield_lag5", "yield_lag4", "yield_lag3", "yield_lag2", "benchmark_yield", "benchmark_price",
	"benchmark_revenue", "guarantee_revenue", "max_payment_rate", "actual_yield", "national_price", "actual_revenue",
	"formula_payment_rate", "payment_rate",
}

// compare holds a figure against the published text. The CSV prints what is
// published, without binary noise, so nothing but equality will do; blank is nil.
func compare(t *testing.T, r Row, name, published string, got *float64) {
	t.Helper()
	if published == "" {
		require.Nilf(t, got, "line %d %v %s: blank in the publication", r.Line, r.key(), name)
		return
	}
	want, err := strconv.ParseFloat(published, 64)
	require.NoError(t, err)
	require.NotNilf(t, got, "line %d %v %s: published as %s", r.Line, r.key(), name, published)
	require.Equalf(t, want, *got, "line %d %v %s: difference %g, tolerance 0", r.Line, r.key(), name, math.Abs(want-*got))
}

// publishedRows returns the PY2023 rows of the five states from the CSV.
func publishedRows(t *testing.T) map[key]map[string]string {
	t.Helper()
	states := map[string]bool{"California": true, "Delaware": true, "Iowa": true, "Kansas": true, "Oregon": true}
	found := map[key]map[string]string{}
	for _, row := range csvRows(t) {
		if row["program_year"] != "2023" || !states[row["state_name"]] {
			continue
		}
		c, ok := crop.ParseCommodity(row["crop_name"])
		require.True(t, ok, row["crop_name"])
		found[key{row["st_cty"] + row["sub_county"], string(c), string(practices[foldWord(row["yield_designation"])])}] = row
	}
	return found
}

// csvRows returns every row of the published table by column name.
func csvRows(t *testing.T) []map[string]string {
	t.Helper()
	f, err := os.Open(genuineCSV)
	require.NoError(t, err)
	defer f.Close()
	unpacked, err := gzip.NewReader(f)
	require.NoError(t, err)
	lines, err := csv.NewReader(unpacked).ReadAll()
	require.NoError(t, err)
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, name := range lines[0] {
			row[name] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

// The words of crop, unit and practice that the agency used in any year are known.
func TestEveryPublishedWordIsKnown(t *testing.T) {
	genuine(t, genuineCSV)
	names := map[crop.Commodity]bool{}
	for _, row := range csvRows(t) {
		c, ok := crop.ParseCommodity(row["crop_name"])
		require.True(t, ok, row["crop_name"])
		names[c] = true
		require.Equal(t, c.Unit().Mass, foldWord(row["unit"]), row["crop_name"])
		require.Contains(t, practices, foldWord(row["yield_designation"]))
	}
	fmt.Printf("crop names of the county tables: checked %d of %d\n", len(names), len(crop.Commodities()))
	require.Len(t, names, len(crop.Commodities()))
}

// Two other genuine workbooks of the agency: its ARC-CO price table of 2019 is
// in the old format, that of 2024 is an .xlsx without counties.
func TestGenuineWorkbooksOfAnotherKindAreRefused(t *testing.T) {
	const folder = "../../../../shared/data/fsa/raw/"
	for name, reason := range map[string]string{"ARC_CO_2019.xls": "old .xls workbook", "ARC_CO_2024.xlsx": "ST_Cty in column A"} {
		genuine(t, folder+name)
		mistakes := refusal(t, folder+name)
		require.Len(t, mistakes, 1)
		require.Contains(t, mistakes[0].Reason, reason)
	}
}
