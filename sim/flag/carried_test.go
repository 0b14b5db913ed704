package flag

import (
	"slices"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/position"
)

// A price that follows nobody bears the date of the final price, and is called old
// by it. Farther than the errors were measured it is not carried.
func TestHeldPriceBearsItsDate(t *testing.T) {
	m := invented.Market("2026-11-10")
	m.MYA[crop.Rapeseed] = map[crop.CropYear]farm.Figure{2023: {Value: 0.20, Status: crop.Agency, Source: "test prices"}}
	m.Printed = map[crop.Commodity]map[crop.CropYear]time.Time{crop.Rapeseed: {2023: invented.Date("2025-01-31")}}
	all := position.WithEveryPrice(m)
	if o := all.Outlook[crop.Rapeseed][2026]; o.Value != 0.20 || !o.AsOf.Equal(invented.Date("2025-01-31")) {
		t.Errorf("2026 is %+v", o)
	}
	_, seven := all.Outlook[crop.Rapeseed][2030]
	_, eight := all.Outlook[crop.Rapeseed][2031]
	if !seven || eight {
		t.Errorf("seven years on %v, eight years on %v; want only seven", seven, eight)
	}
	c := cases.Canola(all)
	c.Operation.Farms[0].Bases[0].Commodity = crop.Rapeseed
	if !slices.Contains(codes(c, 2026), "market_stale") {
		t.Error("a price of January 2025 is not called old in November 2026")
	}
}

// The flag is raised for a carried price of the year or of one of the five years
// behind it, and not where both are stated; then the program says neither that the
// price is missing.
func TestPriceCarriedFlag(t *testing.T) {
	stated := invented.CanolaMarket()
	stated.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	for y := 2025; y <= 2027; y++ {
		invented.Project(stated, crop.Canola, y, 0.25, -1)
	}
	history := invented.CanolaMarket()
	history.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	invented.Project(history, crop.Canola, 2027, 0.25, -1)
	middle := invented.CanolaMarket()
	middle.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	invented.Project(middle, crop.Canola, 2026, 0.25, -1)
	for _, x := range []struct {
		why    string
		m      farm.Market
		year   crop.CropYear
		raised bool
	}{
		{"the price of the year", invented.CanolaMarket(), 2026, true},
		{"the price of the year and that of 2025", invented.CanolaMarket(), 2027, true},
		{"only the price of 2025", history, 2027, true},
		{"all stated", stated, 2026, false},
		{"2025 carried, which crop year 2026 does not look back at", middle, 2026, false},
		{"all stated, last year's projected", stated, 2027, false},
	} {
		got := codes(cases.Canola(position.WithEveryPrice(x.m)), x.year)
		if slices.Contains(got, "price_carried") != x.raised || slices.Contains(got, "no_price_projection") {
			t.Errorf("%s: %v", x.why, got)
		}
	}
	if got := codes(cases.Canola(invented.CanolaMarket()), 2026); !slices.Contains(got, "no_price_projection") {
		t.Errorf("a market that was not completed: %v", got)
	}
}
