package book

import (
	"fmt"
	"math"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/read/table"
	"fencerow/program/crop"
)

// agencyCrops are crop names of the tidy copy of 2014-2018 as the agency's tables
// spell them.
var agencyCrops = map[string]string{"cotton": "Seed Cotton", "mustard": "Mustard Seed", "sesame": "Sesame Seed", "sunflower": "Sunflower Seed"}

// otherLayout writes a program year, or its first rows, in the layout of 2019 (a stray first
// line, no Sub County column) or of 2014-2018 (no adjusted yields, whole units).
func otherLayout(t testing.TB, source, programYear, cropColumn string, adjusted bool, most int) (path string, written []map[string]string) {
	t.Helper()
	heading := []any{"ST_Cty", "State Name", "County Name", "Crop Name", "Unit", "ARC-CO Yield Designation"}
	columns := []string{}
	var y int
	fmt.Sscan(programYear, &y)
	if adjusted {
		for lag := 6; lag >= 2; lag-- {
			heading, columns = append(heading, fmt.Sprintf("%d trend adjusted\n(county yield or 80%% of T)", y-lag)), append(columns, fmt.Sprintf("yield_lag%d", lag))
		}
		heading, columns = append(heading, nil), append(columns, "")
	}
	for _, h := range [][2]string{{"Bench Mark \n(olympic avg)", "benchmark_yield"}, {"Bench Mark  Price (olympic avg)", "benchmark_price"}, {"Benchmark Revenue", "benchmark_revenue"},
		{"Guarantee Revenue", "guarantee_revenue"}, {"Maximum Payment Rate", "max_payment_rate"}, {"Actual Yield", "actual_yield"}, {"National Price", "national_price"},
		{"Actual Revenue", "actual_revenue"}, {"Formula Payment Rate", "formula_payment_rate"}, {"ARC-CO Payment Rate", "payment_rate"}} {
		heading, columns = append(heading, fmt.Sprintf(" %d %s", y, h[0])), append(columns, h[1])
	}
	book := excelize.NewFile()
	defer book.Close()
	w, err := book.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	put := func(line int, cells []any) {
		if err := w.SetRow(fmt.Sprintf("A%d", line), cells); err != nil {
			t.Fatal(err)
		}
	}
	put(1, []any{nil, 9, 16})
	put(5, heading)
	sharedRows(t, source, func(r map[string]string) {
		if r["program_year"] != programYear || r["sub_county"] != "" || len(written) == most {
			return
		}
		name := r[cropColumn]
		if agency, other := agencyCrops[name]; other {
			name = agency
		}
		unit, _, _ := strings.Cut(r["unit"], " ")
		cells := []any{r["st_cty"], r["state_name"], r["county_name"], name, unit, r["yield_designation"]}
		kept := map[string]string{"code": r["st_cty"], "crop": name}
		for _, c := range columns {
			var cell any
			var x float64
			if _, err := fmt.Sscan(r[c], &x); c != "" && err == nil {
				cell = x
			}
			cells, kept[c] = append(cells, cell), r[c]
		}
		written = append(written, kept)
		put(5+len(written), cells)
	})
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "county"+programYear+".xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path, written
}

// Program years in the two other layouts are read back equal, whole ones where FENCEROW_LONG
// is set, else their first rows. Rows by
//
//	zcat arcco_county_py2019_2025.csv.gz | awk -F, '$1==2019' | wc -l
func TestOtherLayouts(t *testing.T) {
	wholeFile(t)
	const sharedOld = "../../../../shared/data/fsa/arcco_county_py2014_2018.csv.gz"
	needsShared(t, sharedOld)
	for _, one := range []struct {
		source, year, crop string
		adjusted           bool
		rows               int
	}{
		{sharedFSA, "2019", "crop_name", true, 13468},
		{sharedOld, "2018", "crop", false, 16585},
	} {
		most := math.MaxInt
		if !longRun {
			most, one.rows = someRows, someRows
		}
		path, written := otherLayout(t, one.source, one.year, one.crop, one.adjusted, most)
		_, read, notes, err := table.ReadSheet(path)
		if err != nil || len(notes) > 0 || len(read) != len(written) || len(read) != one.rows {
			t.Fatalf("%s: %d rows written, %d read, %d noted, %v; want %d", one.year, len(written), len(read), len(notes), err, one.rows)
		}
		for i, r := range read {
			want := written[i]
			if c, _ := crop.ParseCommodity(want["crop"]); r.Commodity != c || r.Code != want["code"] {
				t.Fatalf("%s row %d is %s %s, want %v", one.year, i, r.Code, r.Commodity, want)
			}
			for column, figure := range map[string]*float64{"benchmark_yield": r.BenchmarkYield, "actual_yield": r.ActualYield, "payment_rate": r.PaymentRate, "yield_lag6": r.Adjusted[0], "national_price": r.NationalPrice} {
				var x float64
				if _, err := fmt.Sscan(want[column], &x); (err != nil) != (figure == nil) || figure != nil && *figure != x {
					t.Fatalf("%s row %d %s: %v, want %q", one.year, i, column, figure, want[column])
				}
			}
		}
		fmt.Printf("county table of %s in its layout: checked %d of %d rows\n", one.year, len(read), one.rows)
	}
}
