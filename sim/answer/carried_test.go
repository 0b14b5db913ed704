package answer

import (
	"math"
	"slices"
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// canolaMarket has canola's last final price in 2024 and soybeans' projections, on
// a path that is flat at the projection of 2026.
func canolaMarket() farm.Market {
	m := testMarket("2026-11-10")
	m.MYA[crop.Canola] = map[crop.CropYear]farm.Figure{}
	for i, p := range []float64{0.184, 0.329, 0.298, 0.243, 0.202} {
		m.MYA[crop.Canola][2020+i] = farm.Figure{Value: p, Status: crop.Agency, Source: "test prices"}
	}
	m.Printed = map[crop.Commodity]map[crop.CropYear]time.Time{crop.Canola: {2024: date("2025-12-23")}}
	delete(m.MYA[crop.Soybeans], 2025)
	project(m, crop.Soybeans, 2025, 10.50, -1)
	project(m, crop.Soybeans, 2026, 12.00, -1)
	m.Path = map[crop.Commodity]map[crop.CropYear]farm.Figure{crop.Soybeans: {}}
	for y := 2025; y <= 2031; y++ {
		m.Path[crop.Soybeans][y] = farm.Figure{Value: 12.00, Status: crop.Projected, Source: "test path"}
	}
	return m
}

// Canola takes all of soybeans' move: 0.202 x 10.50/10.00 = 0.2121 in 2025 and 0.202
// x 12.00/10.00 = 0.2424 in 2026. Its spread is the measured error, from 2027 on
// four fifths of it and a year's change.
func TestCarriedPriceFollowsItsLeader(t *testing.T) {
	rule, _ := odds.PriceRuleOf(crop.Canola)
	if rule.Kind != odds.Moved || rule.Leader != crop.Soybeans || rule.Share != 1 {
		t.Fatalf("the rule of canola is %+v; this test reckons with another", rule)
	}
	m := canolaMarket()
	all := WithEveryPrice(m)
	grown := math.Hypot(0.8*rule.Second, rule.Change)
	for y, want := range map[crop.CropYear]struct{ price, spread float64 }{2025: {0.2121, rule.First}, 2026: {0.2424, rule.Second}, 2027: {0.2424, grown}} {
		o := all.Outlook[crop.Canola][y]
		if math.Abs(o.Value-want.price) > 1e-9 || o.Status != crop.Assumed || o.Carried == nil || o.Carried.From != 2024 || math.Abs(o.Carried.Error-want.spread) > 0.0005 {
			t.Errorf("%d: %+v %+v, want %v, spread %.3f", y, o, o.Carried, want.price, want.spread)
		}
		if !o.AsOf.Equal(m.AsOf) {
			t.Errorf("%d: dated %v, the leader's projection is of %v", y, o.AsOf, m.AsOf)
		}
	}
	if _, has := m.Outlook[crop.Canola]; has {
		t.Error("the market given was changed")
	}
}

// A told price stays, and later years start from it; without its leader's price
// nothing is carried.
func TestCarriedPriceLeavesToldOnes(t *testing.T) {
	m := canolaMarket()
	m.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	project(m, crop.Canola, 2026, 0.30, 0.05)
	all := WithEveryPrice(m)
	if o := all.Outlook[crop.Canola][2026]; o.Value != 0.30 || o.Carried != nil {
		t.Errorf("2026 became %+v", o)
	}
	rule, _ := odds.PriceRuleOf(crop.Canola)
	want := math.Hypot(0.8*0.05, rule.Change)
	if o := all.Outlook[crop.Canola][2027]; o.Value != 0.30 || o.Carried == nil || o.Carried.From != 2026 || math.Abs(o.Carried.Error-want) > 0.0005 {
		t.Errorf("2027 is %+v %+v, want 0.30 with spread %.3f", o, o.Carried, want)
	}
	delete(m.MYA, crop.Soybeans)
	delete(m.Outlook, crop.Soybeans)
	if o, has := WithEveryPrice(m).Outlook[crop.Canola][2027]; has {
		t.Errorf("without soybeans 2027 is %+v", o)
	}
}

// A price that follows nobody bears the date of the final price, and is called old
// by it. Farther than the errors were measured it is not carried.
func TestHeldPriceBearsItsDate(t *testing.T) {
	m := testMarket("2026-11-10")
	m.MYA[crop.Rapeseed] = map[crop.CropYear]farm.Figure{2023: {Value: 0.20, Status: crop.Agency, Source: "test prices"}}
	m.Printed = map[crop.Commodity]map[crop.CropYear]time.Time{crop.Rapeseed: {2023: date("2025-01-31")}}
	all := WithEveryPrice(m)
	if o := all.Outlook[crop.Rapeseed][2026]; o.Value != 0.20 || !o.AsOf.Equal(date("2025-01-31")) {
		t.Errorf("2026 is %+v", o)
	}
	_, seven := all.Outlook[crop.Rapeseed][2030]
	_, eight := all.Outlook[crop.Rapeseed][2031]
	if !seven || eight {
		t.Errorf("seven years on %v, eight years on %v; want only seven", seven, eight)
	}
	c := canolaCase(all)
	c.Operation.Farms[0].Bases[0].Commodity = crop.Rapeseed
	if !slices.Contains(codes(c, 2026), "market_stale") {
		t.Error("a price of January 2025 is not called old in November 2026")
	}
}

func canolaCase(m farm.Market) Case {
	yields := farm.CountyYield{Commodity: crop.Canola, Practice: farm.AllPractices,
		Adjusted: map[crop.CropYear][5]float64{2026: {1500, 1600, 1700, 1800, 1900}, 2027: {1500, 1600, 1700, 1800, 1900}}}
	return testCase(m, book(yields), oneFarm("1", base(crop.Canola, 100, 1400)))
}

// The flag is raised for a carried price of the year or of one of the five years
// behind it, and not where both are told; then the program says neither that the
// price is missing.
func TestPriceCarriedFlag(t *testing.T) {
	told := canolaMarket()
	told.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	for y := 2025; y <= 2027; y++ {
		project(told, crop.Canola, y, 0.25, -1)
	}
	history := canolaMarket()
	history.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	project(history, crop.Canola, 2027, 0.25, -1)
	middle := canolaMarket()
	middle.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	project(middle, crop.Canola, 2026, 0.25, -1)
	for _, x := range []struct {
		why    string
		m      farm.Market
		year   crop.CropYear
		raised bool
	}{
		{"the price of the year", canolaMarket(), 2026, true},
		{"the price of the year and that of 2025", canolaMarket(), 2027, true},
		{"only the price of 2025", history, 2027, true},
		{"all told", told, 2026, false},
		{"2025 carried, which crop year 2026 does not look back at", middle, 2026, false},
		{"all told, last year's projected", told, 2027, false},
	} {
		got := codes(canolaCase(WithEveryPrice(x.m)), x.year)
		if slices.Contains(got, "price_carried") != x.raised || slices.Contains(got, "no_price_projection") {
			t.Errorf("%s: %v", x.why, got)
		}
	}
	if got := codes(canolaCase(canolaMarket()), 2026); !slices.Contains(got, "no_price_projection") {
		t.Errorf("a market that was not completed: %v", got)
	}
}

// Crop year 2027 looks back at 2021 to 2025. The price of 2025 is carried: 0.2121;
// the mean of 0.298, 0.243 and 0.2121 without the highest and the lowest is 0.2510
// and, floored at the reference price of 0.2375 each, (0.298 + 0.243 + 0.2375)/3 =
// 0.2595 is the benchmark price. Both are marked as assumed, and drawn.
func TestMissingFinalPriceIsCarried(t *testing.T) {
	c := canolaCase(WithEveryPrice(canolaMarket()))
	c.CropYears = []crop.CropYear{2027}
	part := only(t, c)
	if part.BenchmarkPrice == nil || math.Abs(part.BenchmarkPrice.Value-0.2595) > 1e-9 || part.BenchmarkPriceStatus != crop.Assumed {
		t.Fatalf("benchmark price %+v, %s", part.BenchmarkPrice, part.BenchmarkPriceStatus)
	}
	if part.BenchmarkPriceDrawn == nil || part.BenchmarkPriceDrawn.SD.Value == 0 {
		t.Errorf("the price of 2025 is not final, yet the benchmark price is the same in all outcomes: %+v", part.BenchmarkPriceDrawn)
	}
	if part.MYA == nil || part.MYA.Status != crop.Assumed || part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.ARCCO) == nil {
		t.Errorf("price %+v, programs %+v", part.MYA, part.Programs)
	}
}

// What one program lacks does not silence the other.
func TestEachProgramByItself(t *testing.T) {
	withoutCounty := canolaCase(WithEveryPrice(canolaMarket()))
	withoutCounty.Counties = nil
	if part := only(t, withoutCounty); part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.PLC).ChanceOfPayment == 0 || part.Programs.Of(farm.ARCCO) != nil {
		t.Errorf("without a county yield: %+v", part.Programs)
	}
	withoutYield := canolaCase(WithEveryPrice(canolaMarket()))
	withoutYield.Operation.Farms[0].Bases[0].PaymentYield = nil
	if part := only(t, withoutYield); part.Programs.Of(farm.PLC) != nil || part.Programs.Of(farm.ARCCO) == nil || part.Programs.Of(farm.ARCCO).ChanceOfPayment == 0 {
		t.Errorf("without a payment yield: %+v", part.Programs)
	}
}

// With a market file's price in place of the carried one, at the same spread, the
// odds are the same: what the flag offers changes nothing until it is changed.
func TestToldPriceInPlaceOfTheCarriedOne(t *testing.T) {
	carried := canolaCase(WithEveryPrice(canolaMarket()))
	m := canolaMarket()
	m.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	o := carried.Market.Outlook[crop.Canola][2026]
	project(m, crop.Canola, 2026, o.Value, o.Carried.Error)
	a, b := only(t, carried), only(t, canolaCase(WithEveryPrice(m)))
	if a.Programs.Of(farm.PLC).Mean != b.Programs.Of(farm.PLC).Mean || a.Programs.Of(farm.ARCCO).Mean != b.Programs.Of(farm.ARCCO).Mean {
		t.Errorf("carried %+v %+v, told %+v %+v", a.Programs.Of(farm.PLC), a.Programs.Of(farm.ARCCO), b.Programs.Of(farm.PLC), b.Programs.Of(farm.ARCCO))
	}
	if !strings.Contains(a.MYA.Spread, "2010-2024") {
		t.Errorf("the spread says %q", a.MYA.Spread)
	}
}

// A carried price and its leader's rise and fall together: as canola takes the whole
// move of soybeans, the error of soybeans is part of its own, so that the correlation
// is not below the ratio of both spreads.
func TestCarriedPriceMovesWithItsLeader(t *testing.T) {
	c := canolaCase(WithEveryPrice(canolaMarket()))
	r, err := newRun(c, 2026)
	if err != nil {
		t.Fatal(err)
	}
	canola, _ := c.sources().priceOutlook(crop.Canola, 2026, 4)
	soybeans, _ := c.sources().priceOutlook(crop.Soybeans, 2026, 2)
	x, y := r.priceShock(crop.Canola, canola), r.priceShock(crop.Soybeans, soybeans)
	sum := 0.0
	for i := range x {
		sum += x[i] * y[i]
	}
	least := soybeans.sigma / canola.sigma
	if got := sum / float64(len(x)); got < least || got > 1 {
		t.Errorf("correlation %.2f, want at least %.2f", got, least)
	} else {
		t.Logf("correlation %.2f, at least %.2f", got, least)
	}
}
