package book

import (
	"bufio"
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// The agencies' data beside the repository, re-laid for tests.
const (
	sharedFSA  = "../../../../shared/data/fsa/arcco_county_py2019_2025.csv.gz"
	sharedNASS = "../../../../shared/data/nass/county_yields_1980_2025.csv.gz"
)

func needsShared(t testing.TB, path string) {
	t.Helper()
	if _, err := os.Stat(path); err != nil {
		fmt.Printf("NOT CHECKED: %s is not beside the repository\n", filepath.Base(path))
		t.Skip()
	}
}

// wholeFile skips a test over a whole agency file under the race detector.
func wholeFile(t testing.TB) {
	t.Helper()
	if underRace {
		t.Skip("over a whole agency file: in the run without the race detector")
	}
}

// longRun is set where everything is to be checked: .ci/run sets FENCEROW_LONG. Without
// it the agencies' files are cut to a part, and fewer imports are killed.
var longRun = os.Getenv("FENCEROW_LONG") != ""

// sharedRows gives each line of a packed CSV by column name.
func sharedRows(t testing.TB, path string, each func(map[string]string)) {
	t.Helper()
	f, err := os.Open(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	z, err := gzip.NewReader(f)
	if err != nil {
		t.Fatal(err)
	}
	r := csv.NewReader(z)
	r.ReuseRecord = true
	heading, err := r.Read()
	if err != nil {
		t.Fatal(err)
	}
	columns := append([]string(nil), heading...)
	row := map[string]string{}
	for {
		cells, err := r.Read()
		if err != nil {
			return
		}
		for i, c := range cells {
			row[columns[i]] = c
		}
		each(row)
	}
}

// countyWorkbook writes one program year in the agency's layout of 2020 and
// later from the rows of the shared copy, at most most of them; 0: all.
func countyWorkbook(t testing.TB, programYear, sheet string, most int) (path string, rows int) {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	if err := book.SetSheetName("Sheet1", sheet); err != nil {
		t.Fatal(err)
	}
	w, err := book.NewStreamWriter(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var y int
	fmt.Sscan(programYear, &y)
	span := fmt.Sprintf("(%d-%02d olympic avg)", y-6, (y-2)%100)
	heading := []any{"ST_Cty", "State Name", "County Name", "Sub County", "Crop Name", "Unit", "ARC-CO Yield Designation"}
	for lag := 6; lag >= 2; lag-- {
		heading = append(heading, fmt.Sprintf("%d trend adjusted (county yield or 80%% of T)", y-lag))
	}
	heading = append(heading, nil, fmt.Sprintf("%d Bench Mark %s", y, span), fmt.Sprintf("%d Bench Mark Price %s", y, span))
	for _, h := range []string{"Benchmark Revenue", "Guarantee Revenue", "Maximum Payment Rate", "Actual Yield", "National Price", "Actual Revenue", "Formula Payment Rate", "ARC-CO Payment Rate"} {
		heading = append(heading, fmt.Sprintf("%d %s", y, h))
	}
	lines := [][]any{{"ARC-CO TREND ADJUSTED YIELDS, BENCHMARK YIELDS AND GUARANTEE REVENUES FOR PROGRAM YEAR " + programYear}, {}, {}, heading}
	sharedRows(t, sharedFSA, func(r map[string]string) {
		if r["program_year"] != programYear || most > 0 && rows == most {
			return
		}
		rows++
		line := []any{r["st_cty"], r["state_name"], r["county_name"], r["sub_county"], r["crop_name"], r["unit"], r["yield_designation"]}
		for _, c := range []string{"yield_lag6", "yield_lag5", "yield_lag4", "yield_lag3", "yield_lag2", "", "benchmark_yield", "benchmark_price", "benchmark_revenue",
			"guarantee_revenue", "max_payment_rate", "actual_yield", "national_price", "actual_revenue", "formula_payment_rate", "payment_rate"} {
			var cell any
			if c != "" && r[c] != "" {
				var x float64
				fmt.Sscan(r[c], &x)
				cell = x
			}
			line = append(line, cell)
		}
		lines = append(lines, line)
	})
	for i, line := range lines {
		if len(line) > 0 {
			if err := w.SetRow(fmt.Sprintf("A%d", i+1), line); err != nil {
				t.Fatal(err)
			}
		}
	}
	if err := w.Flush(); err != nil {
		t.Fatal(err)
	}
	path = filepath.Join(t.TempDir(), "county"+programYear+".xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path, rows
}

// nassHeadings are the 39 columns of the bulk file.
const nassHeadings = "SOURCE_DESC\tSECTOR_DESC\tGROUP_DESC\tCOMMODITY_DESC\tCLASS_DESC\tPRODN_PRACTICE_DESC\tUTIL_PRACTICE_DESC\tSTATISTICCAT_DESC\tUNIT_DESC\tSHORT_DESC\tDOMAIN_DESC\tDOMAINCAT_DESC\tAGG_LEVEL_DESC\tSTATE_ANSI\tSTATE_FIPS_CODE\tSTATE_ALPHA\tSTATE_NAME\tASD_CODE\tASD_DESC\tCOUNTY_ANSI\tCOUNTY_CODE\tCOUNTY_NAME\tREGION_DESC\tZIP_5\tWATERSHED_CODE\tWATERSHED_DESC\tCONGR_DISTRICT_CODE\tCOUNTRY_CODE\tCOUNTRY_NAME\tLOCATION_DESC\tYEAR\tFREQ_DESC\tBEGIN_CODE\tEND_CODE\tREFERENCE_PERIOD_DESC\tWEEK_ENDING\tLOAD_TIME\tVALUE\tCV_%"

// nassBulk writes NASS's county yields of a State, "" for all, in the layout of the bulk
// file.
func nassBulk(t testing.TB, state string) (path string, rows int) {
	t.Helper()
	path = filepath.Join(t.TempDir(), "qs.crops_20260627.txt")
	f, err := os.Create(path)
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	w := bufio.NewWriter(f)
	defer w.Flush()
	fmt.Fprintln(w, nassHeadings)
	sharedRows(t, sharedNASS, func(r map[string]string) {
		if state != "" && r["state_ansi"] != state {
			return
		}
		rows++
		commodity, _, _ := strings.Cut(r["short_desc"], " - ")
		fmt.Fprintf(w, "SURVEY\tCROPS\tFIELD CROPS\t%s\tALL CLASSES\tALL PRODUCTION PRACTICES\tALL UTILIZATION PRACTICES\tYIELD\tBU / ACRE\t%s\tTOTAL\tNOT SPECIFIED\tCOUNTY\t%s\t%s\t%s\t\t10\tNORTH\t%s\t%s\t%s\t\t\t00000000\t\t\t9000\tUNITED STATES\t%s, %s\t%s\tANNUAL\t00\t00\tYEAR\t\t2026-06-26 15:00:00\t%s\t%s\n",
			commodity, r["short_desc"], r["state_ansi"], r["state_ansi"], r["state_alpha"], r["county_code"], r["county_code"], r["county_name"], r["state_alpha"], r["county_name"], r["year"], r["value"], r["cv_pct"])
	})
	return path, rows
}

func openNew(t testing.TB) *Book {
	t.Helper()
	b, err := Open(filepath.Join(t.TempDir(), "counties.db"), true)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { b.Close() })
	return b
}

// sheetOf writes a workbook of one sheet.
func sheetOf(t testing.TB, lines [][]any) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	for i, line := range lines {
		if err := book.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &line); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "base.xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}
