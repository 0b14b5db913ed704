package odds

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// Each kind by hand: a last price of 0.20, a leader from 10.00 to 12.00, five
// prices of 0.25 on average, two years.
func TestCarriedPrices(t *testing.T) {
	from := LastPrice{Price: 0.20, LeaderThen: 10, LeaderNow: 12, Five: 0.25, Years: 2}
	for _, c := range []struct {
		rule PriceRule
		want float64
	}{
		{PriceRule{Kind: Held}, 0.20},
		{PriceRule{Kind: Moved, Share: 1}, 0.24},
		{PriceRule{Kind: Moved, Share: 0.5}, 0.20 * math.Sqrt(1.2)},
		{PriceRule{Kind: ByWeight, Share: 0.02}, 0.24},
		{PriceRule{Kind: Reverting}, 0.25 * math.Pow(0.8, 0.64)}, // phi 0.80, twice
		{PriceRule{Kind: HalfWay}, math.Sqrt(0.05)},
	} {
		if got := c.rule.Price(from); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%s, share %g: %v, want %v", c.rule.Kind, c.rule.Share, got, c.want)
		}
	}
}

// One and two known years have their measured errors, with that of a last price not
// final; each year beyond adds a year's change to four fifths of what was there.
func TestSpreadOfCarriedPrices(t *testing.T) {
	r := PriceRule{First: 0.10, Second: 0.15, Change: 0.20}
	grown := math.Sqrt(0.64*0.15*0.15 + 0.04)
	for _, c := range []struct {
		known, beyond int
		last, want    float64
	}{{1, 0, 0, 0.10}, {2, 0, 0, 0.15}, {2, 0, 0.08, 0.17}, {2, 1, 0, grown}, {3, 0, 0, grown}, {0, 1, 0, 0.20}, {0, 1, 0.25, math.Sqrt(0.08)}} {
		if got := r.SD(c.known, c.beyond, c.last); math.Abs(got-c.want) > 1e-12 {
			t.Errorf("%+v: %v", c, got)
		}
	}
}

// Every commodity has a rule or a path; a damaged row is refused, never read by half.
func TestPriceRuleFile(t *testing.T) {
	for _, c := range crop.Commodities() {
		_, ok := PriceRuleOf(c)
		if path := c == crop.Corn || c == crop.Soybeans || c == crop.Wheat; ok == path {
			t.Errorf("%s has a rule: %v", c, ok)
		}
	}
	row := "canola,moved,soybeans,1,0.1,0.2,0.2,15,14,2010-2024,a source\n"
	if _, err := readRules(ruleHeader + "\n" + row); err != nil {
		t.Errorf("the undamaged row: %v", err)
	}
	for what, text := range map[string]string{
		"twice":     row + row,
		"commodity": strings.Replace(row, "canola", "clover", 1),
		"rule":      strings.Replace(row, "moved", "guessed", 1),
		"no leader": strings.Replace(row, "soybeans", "", 1),
		"a leader":  strings.Replace(row, "moved", "held", 1),
		"number":    strings.Replace(row, "0.2,0.2", "0.2,n/a", 1),
		"negative":  strings.Replace(row, "0.2,0.2", "0.2,-0.2", 1),
		"count":     strings.Replace(row, "14", "many", 1),
		"source":    strings.Replace(row, "a source", "", 1),
		"column":    "canola,moved\n",
	} {
		if _, err := readRules(ruleHeader + "\n" + text); err == nil {
			t.Errorf("%s: %q is read", what, text)
		}
	}
}
