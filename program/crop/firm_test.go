package crop

import (
	"slices"
	"testing"
	"time"
)

// The words go from firm to doubtful in the order in which status.go lists them: of two the
// later is the weaker, whatever their order.
func TestWeakestOfTwo(t *testing.T) {
	order := []Status{Law, Agency, Computed, Projected, Assumed, Unverified}
	for i, firm := range order {
		if got := Weakest(firm); got != firm {
			t.Errorf("of %s alone: %s", firm, got)
		}
		for _, weak := range order[i:] {
			if a, b := Weakest(firm, weak), Weakest(weak, firm); a != weak || b != weak {
				t.Errorf("of %s and %s: %s and %s", firm, weak, a, b)
			}
		}
		if got := firm.Marked(); got != (i > 2) { // the first three are not
			t.Errorf("%s is marked: %v", firm, got)
		}
	}
	if got := Weakest(); got != Law {
		t.Errorf("of none: %s", got)
	}
}

// A marketing year begins at midnight of the first day of its month, in the year of harvest,
// and ends on the day before the next (7 CFR 1412.3: corn from September 1).
func TestMarketingYearOfCorn(t *testing.T) {
	m := MarketingYear{CropYear: 2026, StartMonth: time.September}
	if first, last := m.Start().Format(time.RFC3339Nano), m.End().Format(time.RFC3339Nano); first != "2026-09-01T00:00:00Z" || last != "2027-08-31T00:00:00Z" || m.String() != "2026/27" {
		t.Errorf("%s: %s to %s", m, first, last)
	}
}

// A rule speaks of a crop by its key, by "other oilseeds" (7 U.S.C. 9011(13)), or by the unit it is priced in, in this order.
func TestClassesOfACrop(t *testing.T) {
	oilseeds := []Commodity{SunflowerSeed, Rapeseed, Canola, Safflower, Flaxseed, MustardSeed, Crambe, SesameSeed}
	for _, c := range Commodities() {
		want := []string{string(c), c.Unit().Mass}
		if slices.Contains(oilseeds, c) {
			want = []string{string(c), "other_oilseeds", c.Unit().Mass}
		}
		if got := c.Classes(); !slices.Equal(got, want) {
			t.Errorf("%s: %v, want %v", c, got, want)
		}
	}
	if corn, rice := Corn.Unit(), LongGrainRice.Unit(); corn.Yield() != "bu/acre" || rice.Yield() != "lb/acre" || corn.Mass != "bushel" || rice.Mass != "pound" {
		t.Errorf("%+v and %+v", corn, rice)
	}
}
