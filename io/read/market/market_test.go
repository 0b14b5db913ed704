package market

import (
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// whole has every key of the format, and units before and after the prices
// they are for.
const whole = `format: fencerow/market/1
as_of: 2026-11-10
source: "the elevator at Alder"
mya: {corn: {2025: 4.15}, peanuts: {2025: 535}, grain_sorghum: {2025: 7.25}}
outlook: {corn: {2026: {price: 4.80, volatility: 0.071}, 2027: {price: 4.20}}, "Rice (long grain)": {2026: {price: 13.5}}}
months: {corn: {2026: {2026-10: {price: 4.50, weight: 0.2}, 2026-09: {price: 4.61, weight: 0.11}}}}
correlation: {corn: {soybeans: 0.6, county_yield: -0.45}}
units: {peanuts: USD/ton, long_grain_rice: USD/cwt, grain_sorghum: USD/cwt}
`

func day(year int, month time.Month, d int) time.Time {
	return time.Date(year, month, d, 0, 0, 0, 0, time.UTC)
}

func TestParseEveryKey(t *testing.T) {
	got, err := Parse("some/folder/prices.yaml", []byte(whole))
	if err != nil {
		t.Fatal(err)
	}
	known := func(price float64) farm.Figure {
		return farm.Figure{Value: price, Status: crop.Assumed, Source: "prices.yaml: the elevator at Alder"}
	}
	asOf, volatility := day(2026, time.November, 10), 0.071
	projected := func(price float64, volatility *float64) farm.PriceOutlook {
		return farm.PriceOutlook{Figure: farm.Figure{Value: price, Status: crop.Projected, Source: "prices.yaml: the elevator at Alder"}, AsOf: asOf, Volatility: volatility}
	}
	want := farm.Market{
		AsOf: asOf, Source: "the elevator at Alder",
		MYA: map[crop.Commodity]map[int]farm.Figure{
			crop.Corn:         {2025: known(4.15)},
			crop.Peanuts:      {2025: known(0.2675)}, // 535 USD/ton over 2000 lb
			crop.GrainSorghum: {2025: known(4.06)},   // 7.25 USD/cwt times 0.56 cwt in a bushel of 56 lb
		},
		Outlook: map[crop.Commodity]map[int]farm.PriceOutlook{
			crop.Corn:          {2026: projected(4.80, &volatility), 2027: projected(4.20, nil)},
			crop.LongGrainRice: {2026: projected(0.135, nil)}, // 13.5 USD/cwt over 100 lb
		},
		Months: map[crop.Commodity]map[int][]farm.MonthPrice{crop.Corn: {2026: {
			{Month: day(2026, time.September, 1), Price: 4.61, Weight: 0.11}, {Month: day(2026, time.October, 1), Price: 4.50, Weight: 0.2},
		}}},
		Correlation: map[crop.Commodity]map[string]float64{crop.Corn: {"soybeans": 0.6, "county_yield": -0.45}, crop.Soybeans: {"corn": 0.6}},
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("got  %+v\nwant %+v", got, want)
	}
}

// Any text is read or refused with mistakes that have a place, a reason and a
// hint.
func FuzzParse(f *testing.F) {
	f.Add([]byte(whole))
	seeds, err := filepath.Glob("../../../testdata/badfarm/market-*.yaml")
	if err != nil || len(seeds) == 0 {
		f.Fatalf("no seeds: %v", err)
	}
	for _, seed := range seeds {
		text, err := os.ReadFile(seed)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(text)
	}
	f.Fuzz(func(t *testing.T, text []byte) {
		_, err := Parse("fuzz.yaml", text)
		var mistakes farm.Mistakes
		if err != nil && !errors.As(err, &mistakes) {
			t.Fatalf("%v is not farm.Mistakes", err)
		}
		for _, m := range mistakes {
			if m.Line < 1 || m.Column < 1 || m.Reason == "" || m.Hint == "" {
				t.Errorf("incomplete mistake %+v", m)
			}
		}
	})
}
