package program

import (
	"compress/gzip"
	"encoding/csv"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// The agency's tables are read from ../shared beside the repository where it is
// there, else from the small typed cut in testdata/published. The whole tables
// have the counts of docs/validation.md; the cut asserts its own.
const (
	sharedTables = "../../shared/data/fsa"
	typedCut     = "../testdata/published"
)

// agencyTable is one table with its rows by column name.
type agencyTable struct {
	columns map[string]int
	rows    [][]string
	whole   bool // the agency's whole table, not the typed cut
}

func readAgencyTable(t *testing.T, name, cut string) agencyTable {
	t.Helper()
	file, err := os.Open(filepath.Join(sharedTables, name))
	table := agencyTable{columns: map[string]int{}, whole: true}
	if errors.Is(err, fs.ErrNotExist) {
		fmt.Printf("NOT CHECKED: %s is not beside the repository; only the typed cut %s is checked\n", name, cut)
		table.whole = false
		file, err = os.Open(filepath.Join(typedCut, cut))
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var source io.Reader = file
	if strings.HasSuffix(file.Name(), ".gz") {
		if source, err = gzip.NewReader(file); err != nil {
			t.Fatal(err)
		}
	}
	reader := csv.NewReader(source)
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil || len(rows) < 2 {
		t.Fatalf("%s: %d rows, %v", file.Name(), len(rows), err)
	}
	for i, column := range rows[0] {
		table.columns[column] = i
	}
	table.rows = rows[1:]
	return table
}

func (a agencyTable) text(row []string, column string) string {
	i, ok := a.columns[column]
	if !ok {
		panic("no column " + column)
	}
	return row[i]
}

// number returns a figure of the table, NaN where the cell is blank.
func (a agencyTable) number(row []string, column string) float64 {
	text := a.text(row, column)
	if text == "" || text == "NA" {
		return math.NaN()
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		panic(err)
	}
	return x
}

func (a agencyTable) five(row []string, columns ...string) (v [5]float64) {
	for i, column := range columns {
		v[i] = a.number(row, column)
	}
	return v
}

func (a agencyTable) commodity(t *testing.T, row []string, column string) crop.Commodity {
	t.Helper()
	text := a.text(row, column)
	if text == "cotton" { // the copy held of the 2014-2018 county table writes seed cotton so
		return crop.SeedCotton
	}
	c, ok := crop.ParseCommodity(text)
	if !ok {
		t.Fatalf("unknown commodity %q", text)
	}
	return c
}

// tally counts agreements and prints them beside the count asked for.
type tally struct {
	t              *testing.T
	name           string
	checked, right int
	shown          int
}

// check compares as printed: equal after both are cleaned of binary noise.
func (y *tally) check(got, want float64, row []string) bool {
	y.checked++
	if math.Abs(got-want) < 1e-7 {
		y.right++
		return true
	}
	return false
}

// miss reports a row that no known exception covers.
func (y *tally) miss(got, want float64, row []string) {
	if y.shown++; y.shown <= 10 {
		y.t.Errorf("%s: got %v, want %v, row %v", y.name, got, want, row)
	}
}

func (y *tally) want(table agencyTable, right, checked int) {
	y.t.Helper()
	fmt.Printf("%s: checked %d of %d\n", y.name, y.right, y.checked)
	if table.whole && (y.right != right || y.checked != checked) {
		y.t.Errorf("%s: %d of %d rows agree, want %d of %d", y.name, y.right, y.checked, right, checked)
	}
	if !table.whole && y.checked == 0 {
		y.t.Errorf("%s: the typed cut has no row", y.name)
	}
}

// The 2025 table is from before the Act of 2025: its terms are arguments.
const (
	oldAverageShare   = 0.85 // 7 U.S.C. 9011(8)(B)(ii) as in force to 2024
	oldGuaranteeShare = 0.86 // 7 U.S.C. 9017(c)(1) as in force to 2024
	oldMaximumShare   = 0.10
	actOf2025         = 2025
)

// TestAgencyEffectiveReferencePrices: Table 2, program years 2019-2025.
func TestAgencyEffectiveReferencePrices(t *testing.T) {
	table := readAgencyTable(t, "effective_reference_prices_py2019_2025.csv", "fsa-effective-reference-prices-cut.csv")
	count := tally{t: t, name: "effective reference price"}
	for _, row := range table.rows {
		c, year := table.commodity(t, row, "commodity"), int(table.number(row, "program_year"))
		terms, err := TermsFor(c, year)
		if err != nil {
			t.Fatal(err)
		}
		reference, share := terms.ReferencePrice, terms.AverageShare
		if year >= actOf2025 {
			reference, share = table.number(row, "reference_price"), oldAverageShare
		}
		mya := table.five(row, "mya_lag6", "mya_lag5", "mya_lag4", "mya_lag3", "mya_lag2")
		want := table.number(row, "effective_reference_price")
		if got := EffectiveReferencePrice(reference, share, terms.EffectiveLimit, mya, terms.PriceDecimals); !count.check(got, want, row) {
			count.miss(got, want, row)
		}
	}
	count.want(table, 161, 161)
}

// TestAgencyPLCRates: Table 3, program years 2014-2024, with the table's own
// target price; the loan rate is the law's and must be the table's.
func TestAgencyPLCRates(t *testing.T) {
	table := readAgencyTable(t, "plc_payment_rates_py2014_2024.csv", "fsa-plc-payment-rates-cut.csv")
	rates, maxima, loans := tally{t: t, name: "PLC rate"}, tally{t: t, name: "PLC maximum rate"}, tally{t: t, name: "loan rate"}
	for _, row := range table.rows {
		c, year := table.commodity(t, row, "commodity"), int(table.number(row, "program_year"))
		terms, err := TermsFor(c, year)
		if err != nil {
			t.Fatal(err)
		}
		plc := PLC{TargetPrice: table.number(row, "effective_reference_price"), LoanRate: table.number(row, "national_loan_rate"), Decimals: terms.RateDecimals}
		if got, want := plc.Rate(table.number(row, "mya_price")), table.number(row, "plc_payment_rate"); !rates.check(got, want, row) {
			rates.miss(got, want, row)
		}
		if got, want := plc.MaximumRate(), table.number(row, "max_plc_payment_rate"); !maxima.check(got, want, row) {
			maxima.miss(got, want, row)
		}
		loanRate := terms.LoanRate
		if c == crop.Flaxseed && year == 2021 { // Table 3 of 2021 still prints 5.65, Table 4 already 5.6504
			loanRate = Round(loanRate, 2)
		}
		if !loans.check(loanRate, plc.LoanRate, row) {
			loans.miss(loanRate, plc.LoanRate, row)
		}
	}
	rates.want(table, 249, 249)
	maxima.want(table, 249, 249)
	loans.want(table, 249, 249)
}

// TestAgencyBenchmarkPrices: Table 4, program years 2014-2024.
func TestAgencyBenchmarkPrices(t *testing.T) {
	table := readAgencyTable(t, "arcco_prices_py2014_2024.csv", "fsa-arcco-prices-cut.csv")
	benchmark, actual := tally{t: t, name: "benchmark price"}, tally{t: t, name: "ARC-CO actual price"}
	for _, row := range table.rows {
		c, year := table.commodity(t, row, "commodity"), int(table.number(row, "program_year"))
		terms, err := TermsFor(c, year)
		if err != nil {
			t.Fatal(err)
		}
		annual := table.five(row, "benchmark_lag5", "benchmark_lag4", "benchmark_lag3", "benchmark_lag2", "benchmark_lag1")
		floor := table.number(row, "reference_price")
		if got, want := BenchmarkPrice(annual, floor, terms.BenchmarkDecimals), table.number(row, "arcco_benchmark_price"); !benchmark.check(got, want, row) {
			benchmark.miss(got, want, row)
		}
		if got, want := ActualPrice(table.number(row, "mya_price"), table.number(row, "national_loan_rate")), table.number(row, "arcco_actual_price"); !actual.check(got, want, row) {
			actual.miss(got, want, row)
		}
	}
	benchmark.want(table, 249, 249)
	actual.want(table, 249, 249)
}
