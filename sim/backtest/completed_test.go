package backtest_test

import (
	"cmp"
	"fmt"
	"math"
	"reflect"
	"slices"
	"testing"
	"time"

	"fencerow/io/read/builtin"
	"fencerow/io/read/market"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/backtest"
)

// One row worked out by hand. Corn 2019: benchmark price 3.70 (its floor, the reference
// price), loan rate 2.20, price 3.56. Benchmark revenue 150 x 3.70 = 555.00, guarantee
// .86 of it 477.30, most paid 55.50. Actual revenue 125 x 3.56 = 445.00: 32.30 is paid.
// A row that has its figures keeps them; a year without prices is an error.
func TestCompletedByHand(t *testing.T) {
	of := func(y crop.CropYear, revenue crop.Revenue) farm.PastRow {
		return farm.PastRow{PastUnit: farm.PastUnit{County: "99001", Commodity: crop.Corn, Practice: farm.AllPractices}, CropYear: y, BenchmarkYield: 150, ActualYield: 125, BenchmarkRevenue: revenue}
	}
	given := farm.Past{Rows: []farm.PastRow{of(2019, 0), of(2019, 600)}}
	got, err := backtest.Completed(given, market.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	if r := got.Rows[0]; r.MYA != 3.56 || r.BenchmarkRevenue != 555 || r.Rate != 32.30 {
		t.Errorf("%+v", r)
	}
	if !reflect.DeepEqual(got.Rows[1], of(2019, 600)) || given.Rows[0].Rate != 0 {
		t.Errorf("%+v, given %+v", got.Rows[1], given.Rows[0])
	}
	for _, y := range []crop.CropYear{2012, 2031} {
		if _, err := backtest.Completed(farm.Past{Rows: []farm.PastRow{of(y, 0)}}, market.Builtin()); err == nil {
			t.Errorf("%d is completed", y)
		}
	}
}

// bothTables returns the built-in tables and the agencies', rows in the same order, or skips.
func bothTables(t *testing.T) (builtIn, agencies farm.Past) {
	t.Helper()
	agencies = tablesOfThePast(t)
	agencies.Rows = slices.SortedFunc(slices.Values(agencies.Rows), func(a, b farm.PastRow) int {
		return cmp.Or(cmp.Compare(a.CropYear, b.CropYear), cmp.Compare(a.Commodity, b.Commodity), cmp.Compare(a.Practice, b.Practice), cmp.Compare(a.County, b.County))
	})
	builtIn, err := builtin.Past()
	if err == nil {
		builtIn, err = backtest.Completed(builtIn, market.Builtin())
	}
	if err != nil {
		t.Fatal(err)
	}
	builtIn.Forecasts = slices.DeleteFunc(builtIn.Forecasts, func(f farm.Forecast) bool { return !slices.Contains(scored(), f.Commodity) })
	return builtIn, agencies
}

const sameFigure = 1e-9 // two figures that are no further apart are the same

// The built-in rows are what the agency printed: yields, prices, base acres, benchmark
// revenues and payment rates; of the five adjusted yields the mean and the Olympic average.
func TestBuiltinRowsAreTheAgencies(t *testing.T) {
	const wantOld = 8 // rows of 2020, without base acres, that carry the prices of 2019: docs/validation.md
	got, want := bothTables(t)
	if len(want.Rows) != len(got.Rows) {
		t.Fatalf("%d rows, want %d", len(got.Rows), len(want.Rows))
	}
	old := 0
	for i, w := range want.Rows {
		g := got.Rows[i]
		if (w.Adjusted == nil) != (g.Adjusted == nil) || w.Adjusted != nil && (math.Abs(sum(w.Adjusted)-sum(g.Adjusted)) > sameFigure || program.BenchmarkYield(*g.Adjusted, 2) != w.BenchmarkYield) {
			t.Fatalf("%+v: adjusted yields %v, want the mean of %v", w, g.Adjusted, w.Adjusted)
		}
		w.Adjusted, g.Adjusted = nil, nil
		if w.CropYear == 2020 && w.BaseAcres == 0 && w.MYA != g.MYA && (w.County == "41059A" || w.County == "41059B") {
			old++
			w.MYA, w.Rate = g.MYA, g.Rate
		}
		if w != g {
			t.Fatalf("row %+v, want %+v", g, w)
		}
	}
	if old != wantOld {
		t.Errorf("%d rows carry the price of the year before, want %d", old, wantOld)
	}
	fmt.Printf("built-in rows of past crop years: checked %d of %d\n", len(got.Rows), len(want.Rows))
}

func sum(five *[5]crop.Yield) (s crop.Yield) {
	for _, y := range five {
		s += y
	}
	return s
}

// So are NASS's series, the enrolment and the forecasts of May and November.
func TestBuiltinSeriesAreTheAgencies(t *testing.T) {
	got, want := bothTables(t)
	for u, series := range want.Harvested { // 998: other counties together
		if alone := len(u.County) == 5 && u.County[2:] != "998"; alone && !reflect.DeepEqual(got.Harvested[u], series) {
			t.Fatalf("%+v: %v, want %v", u, got.Harvested[u], series)
		}
	}
	if !reflect.DeepEqual(got.Enrolled, want.Enrolled) {
		t.Errorf("enrolled %v, want %v", got.Enrolled, want.Enrolled)
	}
	asked := slices.DeleteFunc(want.Forecasts, func(f farm.Forecast) bool {
		ending := f.Date.Month() == time.May && f.Date.Year() == f.CropYear+1 // estimate of the marketing year that ends
		return f.Date.Month() != time.May && f.Date.Month() != time.November || f.Date.Year() != f.CropYear && !ending || f.Date.Year() < 2014
	})
	if !slices.EqualFunc(got.Forecasts, asked, func(g, w farm.Forecast) bool {
		off := math.Abs(g.Price - w.Price)
		g.Price = w.Price
		return g == w && off < sameFigure
	}) {
		t.Errorf("forecasts %v, want %v", got.Forecasts, asked)
	}
}

// The score of the built-in tables is that of the agencies' files, figure by figure.
func TestBuiltinScoreIsTheAgencies(t *testing.T) {
	const draws, seed = 64, 5
	builtIn, agencies := bothTables(t)
	// One crop year, which has adjusted yields: rows and series are held above for all.
	other := func(f farm.Forecast) bool { return f.CropYear != 2021 }
	builtIn.Forecasts, agencies.Forecasts = slices.DeleteFunc(builtIn.Forecasts, other), slices.DeleteFunc(agencies.Forecasts, other)
	score := func(p farm.Past) reflect.Value {
		result, err := backtest.Run(backtest.Setup{Past: p, Market: market.Builtin(), Draws: draws, Seed: seed}, func(int, int) {})
		if err != nil {
			t.Fatal(err)
		}
		return reflect.ValueOf(result)
	}
	checked := 0
	same(t, "score", score(builtIn), score(agencies), &checked)
	if checked < 100 {
		t.Errorf("only %d figures compared", checked)
	}
	fmt.Printf("score without a folder and with one: %d figures the same within %v\n", checked, sameFigure)
}

// same holds that two values have the same shape and words, and the same figures within
// sameFigure; it counts them.
func same(t *testing.T, where string, got, want reflect.Value, checked *int) {
	t.Helper()
	switch got.Kind() {
	case reflect.Struct:
		for i := range got.NumField() {
			same(t, where+"."+got.Type().Field(i).Name, got.Field(i), want.Field(i), checked)
		}
	case reflect.Slice, reflect.Array:
		if got.Len() != want.Len() {
			t.Fatalf("%s: %d, want %d", where, got.Len(), want.Len())
		}
		for i := range got.Len() {
			same(t, fmt.Sprintf("%s[%d]", where, i), got.Index(i), want.Index(i), checked)
		}
	case reflect.Pointer:
		if got.IsNil() != want.IsNil() {
			t.Fatalf("%s: %v, want %v", where, got, want)
		}
		if !got.IsNil() {
			same(t, where, got.Elem(), want.Elem(), checked)
		}
	case reflect.Float64:
		if *checked++; math.Abs(got.Float()-want.Float()) > sameFigure && !(math.IsNaN(got.Float()) && math.IsNaN(want.Float())) {
			t.Errorf("%s: %v, want %v", where, got, want)
		}
	default:
		if *checked++; !reflect.DeepEqual(got.Interface(), want.Interface()) {
			t.Errorf("%s: %v, want %v", where, got, want)
		}
	}
}
