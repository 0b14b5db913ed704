package past

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

const shared = "../../../../shared/data"

func TestMissingFilesAreNamed(t *testing.T) {
	if _, err := Read(t.TempDir()); !errors.Is(err, ErrMissing) {
		t.Errorf("an empty folder: %v", err)
	}
}

// The counts are by awk and by hand: FSA's county rows of corn with a payment
// rate in 2019, 2,898; Autauga County, Alabama, corn 2014: benchmark yield 90,
// actual 130 at USD 3.70, no payment.
func TestAgencyTables(t *testing.T) {
	if _, err := os.Stat(shared); err != nil {
		t.Skip("NOT CHECKED: agency tables of past years, ../shared is absent")
	}
	p, err := Read(shared)
	if err != nil {
		t.Fatal(err)
	}
	corn2019 := 0
	for _, r := range p.Rows {
		if r.CropYear == 2019 && r.Commodity == crop.Corn {
			corn2019++
		}
		if r.CropYear == 2014 && r.Commodity == crop.Corn && r.County == "01001" && (r.BenchmarkYield != 90 || r.ActualYield != 130 || r.MYA != 3.70 || r.Rate != 0) {
			t.Errorf("%+v", r)
		}
	}
	if corn2019 != 2898 {
		t.Errorf("%d rows of corn 2019, want 2898", corn2019)
	}
	t.Logf("%d rows, %d forecasts, %d series", len(p.Rows), len(p.Forecasts), len(p.Harvested))
}

// Classes of wheat and practices are series of their own, as in the county book:
// NASS ended its yields of all wheat in 2007 and goes on with winter wheat. Yields
// per net planted acre and of other commodities are left out.
func TestWheatClassesApart(t *testing.T) {
	path := filepath.Join(t.TempDir(), "nass.csv")
	const table = `state_ansi,county_code,short_desc,year,value
99,001,"WHEAT - YIELD, MEASURED IN BU / ACRE",2007,40
99,001,"WHEAT, WINTER - YIELD, MEASURED IN BU / ACRE",2024,52
99,001,"WHEAT, SPRING, (EXCL DURUM) - YIELD, MEASURED IN BU / ACRE",2024,45
99,001,"WHEAT, SPRING, DURUM - YIELD, MEASURED IN BU / ACRE",2024,38
99,001,"WHEAT, WINTER, IRRIGATED - YIELD, MEASURED IN BU / ACRE",2019,80
99,001,"WHEAT, WINTER - YIELD, MEASURED IN BU / NET PLANTED ACRE",2024,49
99,001,"BARLEY - YIELD, MEASURED IN BU / ACRE",2024,70
`
	if err := os.WriteFile(path, []byte(table), 0o600); err != nil {
		t.Fatal(err)
	}
	p := farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{}}
	if err := eachRow(path, func(r row) error { return readHarvested(&p, r) }); err != nil {
		t.Fatal(err)
	}
	wheat := func(class string, practice farm.Practice) farm.PastSeries {
		return farm.PastSeries{PastUnit: farm.PastUnit{County: "99001", Commodity: crop.Wheat, Practice: practice}, Class: class}
	}
	want := map[farm.PastSeries]map[crop.CropYear]crop.Yield{
		wheat("", farm.AllPractices): {2007: 40}, wheat("winter", farm.AllPractices): {2024: 52}, wheat("spring", farm.AllPractices): {2024: 45},
		wheat("durum", farm.AllPractices): {2024: 38}, wheat("winter", farm.Irrigated): {2019: 80},
	}
	if !reflect.DeepEqual(p.Harvested, want) {
		t.Errorf("%v, want %v", p.Harvested, want)
	}
}

// A cell that is no number is named with file and line.
func TestMistakesAreNamed(t *testing.T) {
	path := filepath.Join(t.TempDir(), "x.csv")
	if err := os.WriteFile(path, []byte("a,b\n1,2\n3,x\n"), 0o600); err != nil {
		t.Fatal(err)
	}
	err := eachRow(path, func(r row) error { r.figure("b"); return r.err() })
	if err == nil || err.Error() != path+` line 3: b is "x", not a number` {
		t.Errorf("%v", err)
	}
	for _, text := range []string{"NaN", "Inf", "-inf"} { // Go reads these as numbers
		if err := os.WriteFile(path, []byte("a,b\n1,"+text+"\n"), 0o600); err != nil {
			t.Fatal(err)
		}
		err := eachRow(path, func(r row) error { r.figure("b"); return r.err() })
		if err == nil || err.Error() != path+` line 2: b is "`+text+`", not a number` {
			t.Errorf("%s: %v", text, err)
		}
	}
}
