package odds

import (
	"compress/gzip"
	"encoding/csv"
	"fmt"
	"io"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// The agencies' data and forecasts beside the repository.
const (
	sharedFolder = "../../../shared/"
)

// sharedTable gives each line of a CSV, packed or not, by column name.
func sharedTable(t *testing.T, name string, each func(map[string]string)) {
	t.Helper()
	file, err := os.Open(sharedFolder + name)
	if err != nil {
		fmt.Printf("NOT CHECKED: %s is not beside the repository\n", name)
		t.Skip()
	}
	defer file.Close()
	var source io.Reader = file
	if strings.HasSuffix(name, ".gz") {
		if source, err = gzip.NewReader(file); err != nil {
			t.Fatal(err)
		}
	}
	rows := csv.NewReader(source)
	rows.LazyQuotes = true
	heading, err := rows.Read()
	if err != nil {
		t.Fatal(err)
	}
	rows.ReuseRecord = true
	row := map[string]string{} // the same for every line
	for {
		cells, err := rows.Read()
		if err != nil {
			return
		}
		for i, c := range cells {
			row[heading[i]] = c
		}
		each(row)
	}
}

// The built-in errors of USDA's prices, recomputed from every report: the
// standard deviation of log(final / midpoint) by commodity and month, over each
// row's own years without those held back. Two reports of December 2018 both count.
func TestForecastErrorsRecomputed(t *testing.T) {
	const tolerance = 0.003
	months := []string{"Jan", "Feb", "Mar", "Apr", "May", "Jun", "Jul", "Aug", "Sep", "Oct", "Nov", "Dec"}
	type place struct{ commodity, key string }
	type miss struct {
		cropYear int
		log      float64
	}
	errors := map[place][]miss{}
	sharedTable(t, "facts/prices/forecasts.csv", func(r map[string]string) {
		date := strings.Split(r["report_date"], "-")
		log, err := strconv.ParseFloat(r["log_final_over_forecast"], 64)
		if r["report"] != "WASDE" || len(date) != 3 || err != nil {
			return
		}
		year, _ := strconv.Atoi(date[0])
		month, _ := strconv.Atoi(date[1])
		cropYear, _ := strconv.Atoi(r["crop_year"])
		since := 12*(year-cropYear) + month - 1
		if since < firstForecast || since > lastForecast {
			return
		}
		key := months[month-1]
		if since >= 12 {
			key += "+1"
		}
		at := place{r["commodity"], key}
		errors[at] = append(errors[at], miss{cropYear, log})
	})
	checked, all := 0, 0
	for k, row := range parameters() {
		if k.Param != "sd_ln_final_over_wasde" {
			continue
		}
		all++
		var first, last int
		if _, err := fmt.Sscanf(row.Period, "%d-%d", &first, &last); err != nil {
			t.Fatal(row.Period)
		}
		var logs []float64
		for _, m := range errors[place{k.Commodity, k.Key}] {
			if first <= m.cropYear && m.cropYear <= last && m.cropYear != 2016 && m.cropYear != 2022 { // held back
				logs = append(logs, m.log)
			}
		}
		if got := sampleSD(logs); math.Abs(got-row.Value) > tolerance {
			t.Errorf("%s %s, %s: %.4f of %d reports, built in %.4f", k.Commodity, k.Key, row.Period, got, len(logs), row.Value)
			continue
		}
		checked++
	}
	fmt.Printf("errors of USDA's prices: checked %d of %d rows\n", checked, all)
}

func sampleSD(x []float64) float64 {
	mean, squares := Mean(x), 0.0
	for _, v := range x {
		squares += (v - mean) * (v - mean)
	}
	return math.Sqrt(squares / float64(len(x)-1))
}

// unitYears are the agency's county yields of one county, crop and practice.
type unitYears struct {
	actual, benchmark map[int]float64
}

// countyUnitName names such a unit.
type countyUnitName struct{ county, crop, practice string }

// TestLadderRecomputed recomputes how much less is unknown of a county yield
// when its State's is known, and when NASS's county estimate is, by region. In
// units of 2,000 base acres or more:
//
//	before   robust standard deviation of yield / benchmark, less the unit's own median
//	state    the same less the mean of its State in the year
//	estimate robust standard deviation of yield / (NASS x the unit's median ratio of other years), 2019 on
//
// Wanted is the middle of the range of the method notes (docs/method.md); where
// the recomputed figure is more than two points outside the range the test says
// so and docs/method.md has the derivation.
func TestLadderRecomputed(t *testing.T) {
	units := agencyYields(t)
	harvested := nassYields(t)
	points := 2.0
	for _, one := range []struct {
		region, crop, practice  string
		states                  []string
		before, state, estimate [2]float64 // percent; 0, 0: not compared
	}{
		{"Corn Belt", "corn", "All", []string{"17", "18", "19"}, [2]float64{10, 14}, [2]float64{6, 10}, [2]float64{4, 5}},
		{"Corn Belt", "soybeans", "All", []string{"17", "18", "19"}, [2]float64{8, 12}, [2]float64{6, 7}, [2]float64{4, 6}},
		{"Upper Midwest", "corn", "All", []string{"27", "55", "38", "46"}, [2]float64{12, 19}, [2]float64{10, 17}, [2]float64{5, 6}},
		{"Upper Midwest", "soybeans", "All", []string{"27", "55", "38", "46"}, [2]float64{12, 19}, [2]float64{8, 10}, [2]float64{5, 6}},
		{"dry-land Plains", "corn", "Nonirrigated", []string{"20", "31", "40", "48", "08"}, [2]float64{25, 30}, [2]float64{20, 27}, [2]float64{}},
		{"dry-land Plains", "soybeans", "Nonirrigated", []string{"20", "31", "40", "48", "08"}, [2]float64{16, 30}, [2]float64{14, 19}, [2]float64{}},
		{"Plains", "wheat", "All", []string{"20", "31", "40", "48", "08"}, [2]float64{28, 40}, [2]float64{20, 30}, [2]float64{11, 13}},
	} {
		all, state, estimate := ladder(units, harvested, one.crop, one.practice, one.states)
		got := [3]float64{100 * robustSD(all), 100 * robustSD(state), 100 * robustSD(estimate)}
		fmt.Printf("ladder, %s %s: before %.1f, State known %.1f (%d), NASS known %.1f (%d)\n", one.region, one.crop, got[0], got[1], len(state), got[2], len(estimate))
		for i, want := range [][2]float64{one.before, one.state, one.estimate} {
			if want[1] > 0 && (got[i] < want[0]-points || got[i] > want[1]+points) {
				t.Errorf("%s %s, step %d: %.1f percent, outside %v by more than %v points", one.region, one.crop, i, got[i], want, points)
			}
		}
	}
}

// agencyYields reads actual and benchmark yields of 2014-2023, of units with
// 2,000 base acres or more.
func agencyYields(t *testing.T) map[countyUnitName]unitYears {
	t.Helper()
	const leastBase = 2000
	base := map[[2]string]float64{}
	sharedTable(t, "data/fsa/county_base_acres_2014_2023.csv.gz", func(r map[string]string) {
		if acres, err := strconv.ParseFloat(r["base_acres"], 64); r["program_year"] == "2014" && err == nil {
			base[[2]string{r["state_fips"] + r["county_fips"], r["crop"]}] = acres
		}
	})
	units := map[countyUnitName]unitYears{}
	for file, column := range map[string]string{"data/fsa/arcco_county_py2014_2018.csv.gz": "crop", "data/fsa/arcco_county_py2019_2025.csv.gz": "crop_name"} {
		sharedTable(t, file, func(r map[string]string) {
			u := countyUnitName{r["st_cty"], strings.ToLower(r[column]), r["yield_designation"]}
			actual, err := strconv.ParseFloat(r["actual_yield"], 64)
			benchmark, errBenchmark := strconv.ParseFloat(r["benchmark_yield"], 64)
			if err != nil || errBenchmark != nil || base[[2]string{u.county, u.crop}] < leastBase {
				return
			}
			if units[u].actual == nil {
				units[u] = unitYears{map[int]float64{}, map[int]float64{}}
			}
			year, _ := strconv.Atoi(r["program_year"])
			units[u].actual[year], units[u].benchmark[year] = actual, benchmark
		})
	}
	return units
}

// nassYields reads NASS's county yields of all practices.
func nassYields(t *testing.T) map[[2]string]map[int]float64 {
	t.Helper()
	items := map[string]string{"CORN, GRAIN - YIELD, MEASURED IN BU / ACRE": "corn", "SOYBEANS - YIELD, MEASURED IN BU / ACRE": "soybeans", "WHEAT, WINTER - YIELD, MEASURED IN BU / ACRE": "wheat"}
	yields := map[[2]string]map[int]float64{}
	sharedTable(t, "data/nass/county_yields_1980_2025.csv.gz", func(r map[string]string) {
		crop, is := items[r["short_desc"]]
		value, err := strconv.ParseFloat(r["value"], 64)
		if !is || err != nil || value <= 0 || r["county_code"] == "998" {
			return
		}
		key := [2]string{r["state_ansi"] + r["county_code"], crop}
		if yields[key] == nil {
			yields[key] = map[int]float64{}
		}
		year, _ := strconv.Atoi(r["year"])
		yields[key][year] = value
	})
	return yields
}

// ladder gathers the deviations of a region by what is known.
func ladder(units map[countyUnitName]unitYears, harvested map[[2]string]map[int]float64, crop, practice string, states []string) (all, state, estimate []float64) {
	const leastYears, leastUnits = 5, 5
	byYear := map[[2]string][]float64{}
	for u, y := range units {
		if u.crop != crop || u.practice != practice || !slices.Contains(states, u.county[:2]) {
			continue
		}
		estimate = append(estimate, offEstimate(y.actual, harvested[[2]string{u.county, crop}])...)
		if len(y.actual) < leastYears {
			continue
		}
		var ratios []float64
		for year, actual := range y.actual {
			ratios = append(ratios, actual/y.benchmark[year])
		}
		level := Median(ratios)
		for year, actual := range y.actual {
			key := [2]string{u.county[:2], strconv.Itoa(year)}
			byYear[key] = append(byYear[key], actual/y.benchmark[year]/level-1)
		}
	}
	for _, deviations := range byYear {
		if len(deviations) < leastUnits {
			continue
		}
		mean := Mean(deviations)
		for _, d := range deviations {
			all, state = append(all, d), append(state, d-mean)
		}
	}
	return all, state, estimate
}

// offEstimate is how far the agency's yields are off NASS's at the median ratio
// of the other years, from the change of source on.
func offEstimate(actual, harvested map[int]float64) (off []float64) {
	var years []int
	for y := range actual {
		if harvested[y] > 0 && y >= SourceChange {
			years = append(years, y)
		}
	}
	if len(years) < YearsForRatio {
		return nil
	}
	for _, y := range years {
		var ratios []float64
		for _, z := range years {
			if z != y {
				ratios = append(ratios, actual[z]/harvested[z])
			}
		}
		if ratio := Median(ratios); ratio > 0 {
			off = append(off, actual[y]/(harvested[y]*ratio)-1)
		}
	}
	return off
}

// robustSD is 1.4826 times the median distance from the median.
func robustSD(x []float64) float64 {
	const normal = 1.4826
	center := Median(slices.Clone(x))
	var away []float64
	for _, v := range x {
		away = append(away, math.Abs(v-center))
	}
	return normal * Median(away)
}
