package odds

import (
	"encoding/csv"
	"fmt"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

// Every past year is drawn as often, prices of one scenario are of one year, and their
// mean and standard deviation are those of a shock. Corn and sorghum had their largest error
// in 2012 and 2020, the years of drought and of the rally.
func TestPastYearsAreDrawnWhole(t *testing.T) {
	d := NewScenarios(1, 1<<14)
	s := newSampler(t, d)
	s.FromHistory()
	corn, soybeans := s.PriceShock(crop.Corn), s.PriceShock(crop.Soybeans)
	pairs := map[[2]float64]int{}
	for i := range corn {
		pairs[[2]float64{corn[i], soybeans[i]}]++
	}
	if len(pairs) != len(PastYears()) {
		t.Errorf("%d outcomes, want %d", len(pairs), len(PastYears()))
	}
	for pair, n := range pairs {
		if share := float64(n) / float64(d.N()) * float64(len(PastYears())); math.Abs(share-1) > 0.01 {
			t.Errorf("%v came %d times of %d", pair, n, d.N())
		}
	}
	for _, z := range [][]float64{corn, soybeans, s.PriceShock(crop.Lentils), s.PriceShock(crop.SeedCotton)} {
		if mean, sd := stat.PopMeanStdDev(z, nil); math.Abs(mean) > 0.01 || math.Abs(sd-1) > 0.01 {
			t.Errorf("mean %.4f, spread %.4f", mean, sd)
		}
	}
	if worst := past()["corn"]; worst[2012] < 1.5 || worst[2020] < 1.5 {
		t.Errorf("corn %v", worst)
	}
}

// A series 100 + 2 a year with 20 percent less in 2012: one value of 13 off and
// the others alike have mean 0 and standard deviation 1 only as -sqrt(12) and 1/sqrt(12).
// Without 2015, or with nothing off, there is nothing to draw.
func TestPastDeviations(t *testing.T) {
	var years []int
	var yields []float64
	for y := 1995; y <= 2024; y++ {
		years, yields = append(years, y), append(yields, 100+2*float64(y-1995))
	}
	yields[2012-1995] *= 0.8
	got, ok := PastDeviations(years, yields)
	others := float64(len(PastYears()) - 1)
	for i, y := range PastYears() {
		want := 1 / math.Sqrt(others)
		if y == 2012 {
			want = -math.Sqrt(others)
		}
		if !ok || math.Abs(got[i]-want) > 1e-6 {
			t.Errorf("%d: %.4f, want %.4f", y, got[i], want)
		}
	}
	if _, ok := PastDeviations(append(years[:20:20], years[21:]...), append(yields[:20:20], yields[21:]...)); ok {
		t.Error("a series without 2015 has deviations")
	}
	yields[2012-1995] /= 0.8
	if got, ok := PastDeviations(years, yields); ok {
		t.Errorf("a series along its trend has deviations %v", got)
	}
}

// The table is what the reports say, recomputed.
func TestPastErrors(t *testing.T) {
	text, err := os.ReadFile("../../../shared/data/wasde/us_season_average_price_2010_2025.csv")
	if err != nil {
		t.Skip("NOT CHECKED: past errors of USDA's prices, ../shared is absent")
	}
	names := map[string]string{"Wheat": "wheat", "Corn": "corn", "Soybeans": "soybeans", "Sorghum": "grain_sorghum", "Barley": "barley", "Oats": "oats",
		"Long-Grain Rice": "long_grain_rice", "Upland Cotton": "upland_cotton_lint", "Medium & Short-Grain Rice": "medium_short_grain_rice_with_japonica"}
	rows, err := csv.NewReader(strings.NewReader(string(text))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	may, final := map[string]float64{}, map[string]float64{}
	for _, r := range rows[1:] {
		name, counts := names[r[2]]
		low, errLow := strconv.ParseFloat(r[8], 64)
		high, errHigh := strconv.ParseFloat(r[9], 64)
		if !counts || errLow != nil || errHigh != nil {
			continue
		}
		key := name + "," + r[3][:4]
		switch {
		case r[4] == "Final":
			final[key] = (low + high) / 2
		case r[4] == "Proj." && r[5] != "previous" && r[0][:7] == r[3][:4]+"-05":
			may[key] = (low + high) / 2
		}
	}
	checked, want := 0, 0
	for _, line := range strings.Split(strings.TrimSpace(historyFile), "\n") {
		cells := strings.Split(line, ",")
		x, err := strconv.ParseFloat(cells[len(cells)-1], 64)
		if err != nil || len(cells) != 3 {
			continue
		}
		want++
		key := cells[0] + "," + cells[1]
		if math.Abs(math.Log(final[key]/may[key])-x) > 5e-5+1e-9 {
			t.Errorf("%s: %.4f, recomputed %.4f", key, x, math.Log(final[key]/may[key]))
			continue
		}
		checked++
	}
	fmt.Printf("past errors of USDA's May prices: checked %d of %d\n", checked, want)
	if want != 9*len(PastYears()) {
		t.Errorf("%d rows, want %d", want, 9*len(PastYears()))
	}
}
