package workbook

import (
	"fmt"
	"math"
	"math/rand/v2"
	"os"
	"strconv"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/workbook/cells"
)

// halfCent is the tolerance: money is compared to the cent, prices and rates to
// their own last decimal, which is finer than this where it is not money.
const halfCent = 1e-7

// typedBook lays out a workbook with figures typed in, and says what is expected.
func typedBook(a asked, r *rand.Rand) (sheets []*cells.Sheet, want map[cells.Place]float64, ties int) {
	sheets, layout := lay(a.comparison, a.Figures, a.pages())
	s := shake(layout, r)
	s.apply()
	want, ties = s.expect()
	return sheets, want, ties
}

// Whatever is typed, the formulas come to what package program comes to.
func TestFormulasFollowTheLaw(t *testing.T) {
	books := 4                            // of 16 farms, commodities and crop years each
	if os.Getenv("FENCEROW_LONG") != "" { // .ci/run sets it
		books = 20
	}
	a := ask(t, testCase())
	r := rand.New(rand.NewPCG(1, 2))
	checked, above, ties, expected, settings, formulas := 0, 0, 0, 0, 0, 0
	for range books {
		sheets, want, onHalf := typedBook(a, r)
		ties += onHalf
		f, err := draft(sheets)
		if err != nil {
			t.Fatal(err)
		}
		for at, x := range want {
			expected++
			if at.On.Rows[at.Row-1][at.Column-1].Formula == "" {
				t.Fatalf("%s holds no formula", at.Absolute())
			}
			if got := calculated(t, f, at); math.Abs(got-x) > halfCent {
				t.Errorf("%s is %v, program says %v: %s", at.Absolute(), got, x, at.On.Rows[at.Row-1][at.Column-1].Formula)
				continue
			}
			checked++
			if x > 0 {
				above++
			}
		}
		for _, year := range a.Workings {
			settings += len(year.Commodities)
		}
		formulas = formulasOf(sheets)
	}
	fmt.Printf("checked %d of %d formula cells in %d random settings of price, yields, acres and shares (%d of them above 0, %d products on half a cent; %d formulas in each of %d workbooks)\n", checked, expected, settings, above, ties, formulas, books)
	const least, leastTies = 10, 1 // of each book
	if settings < least*books || ties < leastTies*books || checked != expected {
		t.Errorf("%d settings, %d ties, %d of %d", settings, ties, checked, expected)
	}
}

// formulasOf counts the formulas of a workbook.
func formulasOf(sheets []*cells.Sheet) (n int) {
	for _, s := range sheets {
		for range s.Formulas() {
			n++
		}
	}
	return n
}

// calculated is what the library makes of a formula.
func calculated(t *testing.T, f *excelize.File, at cells.Place) float64 {
	t.Helper()
	text, err := f.CalcCellValue(at.On.Title, at.Address(), excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatalf("%s: %v", at.Absolute(), err)
	}
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatalf("%s is %q", at.Absolute(), text)
	}
	return x
}
