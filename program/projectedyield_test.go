package program

import (
	"fmt"
	"math"
	"sort"
	"testing"
)

// The benchmark yields of 2025 estimated from the table of 2024 and the county
// yields of 2023, beside those that the agency published.
func TestBenchmarkAheadOf2025(t *testing.T) {
	const leastExact, most95, mostBias = 0.55, 0.01, 0.001 // the bounds
	table := readCountyTable(t, countyTable, "fsa-arcco-county-cut.csv")
	if !table.whole {
		t.Skip("the typed cut has no two tables of one county")
	}
	unitOf := func(row []string) countyUnit {
		return countyUnit{table.text(row, "st_cty"), table.text(row, "sub_county"), table.text(row, "crop_name"), table.text(row, "yield_designation")}
	}
	actual, five, want := map[countyUnit]map[int]float64{}, map[countyUnit][5]float64{}, map[countyUnit]float64{}
	for _, row := range table.rows {
		u, year := unitOf(row), int(table.number(row, "program_year"))
		if y := table.number(row, "actual_yield"); !math.IsNaN(y) {
			if actual[u] == nil {
				actual[u] = map[int]float64{}
			}
			actual[u][year] = y
		}
		switch year {
		case 2024:
			five[u] = table.five(row, "yield_lag6", "yield_lag5", "yield_lag4", "yield_lag3", "yield_lag2")
		case 2025:
			want[u] = table.number(row, "benchmark_yield")
		}
	}
	exact, sum := 0, 0.0
	var gaps []float64
	for u, published := range want {
		newest, has := actual[u][2023]
		before, in := five[u]
		if !has || !in {
			continue
		}
		trend, _ := SharedTrend(before, actual[u], 2024)
		next := ProjectedYields(before, trend, 2024, newest, 0, 2)
		got := BenchmarkYield(next, 2)
		if math.Abs(got-published) <= 0.01+1e-9 {
			exact++
		}
		gap := got/published - 1
		sum += gap
		gaps = append(gaps, math.Abs(gap))
	}
	sort.Float64s(gaps)
	n := len(gaps)
	share, q95, bias := float64(exact)/float64(n), gaps[n*95/100], sum/float64(n)
	fmt.Printf("benchmark yields of 2025 ahead: checked %d of %d rows; %.1f percent within 0.01, 95 percent within %.2f percent, bias %.3f percent\n", n, n, 100*share, 100*q95, 100*bias)
	if n < 10_000 || share < leastExact || q95 > most95 || math.Abs(bias) > mostBias {
		t.Errorf("%d rows, %.3f within 0.01, 95th percentile %.4f, bias %.5f", n, share, q95, bias)
	}
}
