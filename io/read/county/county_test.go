package county

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

func pointer[T any](v T) *T { return &v }

// whole has every key of the format.
const whole = `format: fencerow/county/1
code: 08063
name: Alder County
yields:
  - commodity: corn
    practice: irrigated
    adjusted: {2026: [184.20, 187.00, 193.10, 178.43, 190.70]}
    benchmark_yield: {2026: 187.30}
    actual: {2020: 172.8, 2021: 0}
    plug: {2020: 150.0}
    trend: {2026: -1.9}
    outlook: {2026: {yield: 188, known_from: local_harvest, sd: 0, shape: lognormal}, 2027: {known_from: before_harvest}}
    history: {1990: 118, 1991: 102}
  - {commodity: CORN, practice: nonirrigated, benchmark_yield: {2026: 90}}
  - {commodity: corn, actual: {2019: 150}}
`

func TestParseEveryKey(t *testing.T) {
	got, err := Parse("whole.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	want := farm.County{Code: "08063", Name: "Alder County", Yields: []farm.CountyYield{
		{
			Commodity: crop.Corn, Practice: farm.Irrigated,
			Adjusted:       map[int][5]float64{2026: {184.20, 187.00, 193.10, 178.43, 190.70}},
			BenchmarkYield: map[int]float64{2026: 187.30},
			Actual:         map[int]float64{2020: 172.8, 2021: 0},
			Plug:           map[int]float64{2020: 150},
			Trend:          map[int]float64{2026: -1.9},
			Outlook:        map[int]farm.YieldOutlook{2026: {Yield: pointer(188.0), KnownFrom: "local_harvest", SD: pointer(0.0), Shape: "lognormal"}, 2027: {KnownFrom: "before_harvest"}},
			History:        map[int]float64{1990: 118, 1991: 102},
		},
		{Commodity: crop.Corn, Practice: farm.Nonirrigated, BenchmarkYield: map[int]float64{2026: 90}},
		{Commodity: crop.Corn, Practice: farm.AllPractices, Actual: map[int]float64{2019: 150}},
	}}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

// Any text is read or refused with mistakes that have a place, a reason and a
// hint.
func FuzzParse(f *testing.F) {
	starts := []string{whole}
	seeds, err := filepath.Glob("../../../testdata/badfarm/county-*.yaml")
	if err != nil || len(seeds) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	for _, seed := range seeds {
		text, err := os.ReadFile(seed)
		if err != nil {
			f.Fatal(err)
		}
		starts = append(starts, string(text))
	}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		got, err := Parse("fuzz.yaml", text)
		var mistakes farm.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			t.Fatalf("%v is not farm.Mistakes", err)
		}
		for _, m := range mistakes {
			if m.Line < 1 || m.Column < 1 || m.Reason == "" || m.Hint == "" {
				t.Errorf("incomplete mistake %+v", m)
			}
		}
		if err := sound.Finite(got); err != nil {
			t.Error(err)
		}
	})
}

// The code may be the county's name: that of FSA's county tables.
func TestCodeByName(t *testing.T) {
	got, err := Parse("story.yaml", []byte("format: fencerow/county/1\ncode: Story, Iowa\nyields: [{commodity: corn, benchmark_yield: {2026: 190}}]\n"))
	if err != nil || got.Code != "19169" {
		t.Errorf("%+v, %v", got, err)
	}
}
