package crop

import (
	"math"
	"testing"
)

// Every commodity is found under its key and its name, whatever the case, and has a place
// and a unit; every alias leads to a commodity there is.
func TestEveryCommodityIsFound(t *testing.T) {
	for i, c := range Commodities() {
		for _, text := range []string{string(c), c.Name(), " " + c.Name() + " 2/", string(c) + "."} {
			if found, ok := ParseCommodity(text); !ok || found != c {
				t.Errorf("%q is %q, %v", text, found, ok)
			}
		}
		if c.Index() != i || c.Unit().Price() == "USD/" {
			t.Errorf("%s: place %d, unit %q", c, c.Index(), c.Unit().Price())
		}
	}
	for spelling, c := range aliases() {
		if c.Index() < 0 {
			t.Errorf("the spelling %q leads to %q", spelling, c)
		}
	}
	for _, c := range Series() {
		if c.Index() >= 0 {
			t.Errorf("%s is a price that is followed, and stands among the covered commodities", c)
		}
	}
}

// Commodities gives a list of one's own: changing it changes nothing.
func TestCommoditiesAreCopied(t *testing.T) {
	Commodities()[0] = "gold"
	if Commodities()[0] != Wheat {
		t.Errorf("the first commodity is %s", Commodities()[0])
	}
}

// Units by hand: 100 pounds a hundredweight, 2,000 a ton, 56 a bushel of flaxseed (FSA prints
// 20.15 USD/cwt as 11.28 USD/bu, docs/formats.md) and of grain sorghum (NASS's prices a
// hundredweight beside WASDE's a bushel, io/read/market/agency_test.go).
func TestPriceFactors(t *testing.T) {
	for _, one := range []struct {
		commodity Commodity
		from      string
		want      float64 // 0: does not fit
	}{
		{Corn, "USD/bu", 1}, {Corn, "cents/bu", 0.01}, {Corn, "USD/cwt", 0}, {Peanuts, "USD/bu", 0}, {Peanuts, "cents/lb", 0.01},
		{LongGrainRice, "USD/cwt", 0.01}, {Flaxseed, "USD/cwt", 0.56}, {GrainSorghum, "USD/cwt", 0.56}, {GrainSorghum, "USD/bu", 1}, {Corn, "EUR/bu", 0},
	} {
		factor, ok := one.commodity.PriceFactor(one.from)
		if ok != (one.want > 0) || math.Abs(factor-one.want) > 1e-12 {
			t.Errorf("%s from %s: %v, %v, want %v", one.commodity, one.from, factor, ok, one.want)
		}
	}
	for c, want := range map[Commodity]string{Peanuts: "USD/ton", Corn: "USD/bu", SeedCotton: "USD/lb", Canola: "USD/cwt"} {
		unit, factor := c.TradeUnit()
		if back, ok := c.PriceFactor(unit); unit != want || !ok || math.Abs(back*factor-1) > 1e-12 {
			t.Errorf("the trade speaks of %s in %s, %v there and %v back", c, unit, factor, back)
		}
	}
}

// Words from firm to doubtful; what is computed from firm figures is computed.
func TestStatuses(t *testing.T) {
	if Weakest() != Law || Weakest(Agency, Assumed, Projected) != Assumed || ComputedFrom() != Computed || ComputedFrom(Unverified, Law) != Unverified {
		t.Error("statuses are out of order")
	}
	for s, marked := range map[Status]bool{Law: false, Agency: false, Computed: false, Projected: true, Assumed: true, Unverified: true} {
		if !s.Known() || s.Marked() != marked {
			t.Errorf("%s: known %v, marked %v", s, s.Known(), s.Marked())
		}
	}
	if Status("sure").Known() {
		t.Error("sure is a status")
	}
}

// The 50 States have two digits each and are found by name in any case (Census Bureau's count).
func TestStates(t *testing.T) {
	if len(StateNames) != 50 || StateCode("north DAKOTA") != "38" || StateCode("Nowhere") != "" {
		t.Errorf("%d States, North Dakota %q", len(StateNames), StateCode("north DAKOTA"))
	}
}
