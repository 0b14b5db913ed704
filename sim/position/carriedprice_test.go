package position

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
)

// Canola takes all of soybeans' move: 0.202 x 10.50/10.00 = 0.2121 in 2025 and 0.202
// x 12.00/10.00 = 0.2424 in 2026. Its standard deviation is the measured error, from 2027 on
// four fifths of it and a year's change.
func TestCarriedPriceFollowsItsLeader(t *testing.T) {
	rule, _ := odds.PriceRuleOf(crop.Canola)
	if rule.Kind != odds.Moved || rule.Leader != crop.Soybeans || rule.Share != 1 {
		t.Fatalf("the rule of canola is %+v; this test reckons with another", rule)
	}
	m := invented.CanolaMarket()
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

// A stated price stays, and later years start from it; without its leader's price
// nothing is carried.
func TestCarriedPriceLeavesToldOnes(t *testing.T) {
	m := invented.CanolaMarket()
	m.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	invented.Project(m, crop.Canola, 2026, 0.30, 0.05)
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
