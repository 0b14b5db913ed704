package market

import (
	"bytes"
	"errors"
	"os"
	"path/filepath"
	"reflect"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
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
	starts := []string{whole}
	seeds, err := filepath.Glob("../../../testdata/badfarm/market-*.yaml")
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

// Any text is read as a WASDE report, left to other readers, or refused.
func FuzzWASDE(f *testing.F) {
	const heading = "WasdeNumber,Attribute,Commodity,Region,MarketYear,ProjEstFlag,AnnualQuarterFlag,Value,Unit,ReleaseDate\n"
	starts := []string{
		heading + "999,Avg. Farm Price,Corn,United States,2026/27,Proj.,Annual,4.20,$/bu,2026-11-10\n999,Production,Corn,United States,2026/27,Proj.,Annual,16000,Million Bushels,2026-11-10\n",
		heading + "999,Avg. Farm Price,\"Rice, Long-grain\",United States,2025/26,Est.,Annual,13.5,$/cwt,2026-11-10\n",
		"\ufeff" + heading,
	}
	sound.ReadWords(f, "testdata/fuzz/wasde.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		report, is, err := ReadWASDE(bytes.NewReader(text))
		if !is && (err != nil || report.Number != 0) {
			t.Errorf("is no WASDE report and still %+v, %v", report, err)
		}
		if err := sound.Finite(report); err != nil {
			t.Error(err)
		}
		for _, p := range report.Prices {
			if !(p.Price > 0) {
				t.Errorf("a price of %v on line %d", p.Price, p.Line)
			}
		}
	})
}
