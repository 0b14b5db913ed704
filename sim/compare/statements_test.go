package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// A limit that is projected says so and how it was made, wherever it stands.
//
// Source: 7 CFR 1400.106(d).
func TestLimitOf2026IsProjected(t *testing.T) {
	says(t, cases.Corn(), 2026, "unverified_figure", "Projected for 2026: the payment limit ($159,000)", "7 CFR 1400.106(d) (155,000 raised once by the CPI-U, 319.205 over 310.955", "settings in the operation file")
	c := cases.SharedOperation(3000, []farm.Producer{{ID: "operator", Kind: farm.Person}}, farm.Shares{"operator": 1})
	c.Operation.Settings.PaymentLimit = nil
	year := ask(t, c).CropYears[0]
	if p := year.Operation.ByPerson[0]; p.Limit != 159_000 || p.LimitStatus != crop.Projected {
		t.Errorf("limit %v, %s; want 159000, projected", p.Limit, p.LimitStatus)
	}
	for _, f := range year.Farms[0].Flags {
		if f.Code == "limit_reached" && !strings.Contains(f.Message, "$159,000 (projected)") {
			t.Errorf("the limit is not marked: %s", f.Message)
		}
	}
	c.Operation.Settings.PaymentLimit = map[crop.CropYear]crop.Money{2026: 161_000}
	if p := ask(t, c).CropYears[0].Operation.ByPerson[0]; p.Limit != 161_000 || p.LimitStatus != crop.Assumed {
		t.Errorf("own limit %v, %s; want 161000, assumed", p.Limit, p.LimitStatus)
	}
	says(t, cases.HigherOf2025(), 2025, "unverified_figure", "Not yet confirmed for 2025: the payment limit ($155,000)")
}

// Fruit and vegetables cut payment acres only where they are planted on base: 40 acres
// on 100 base acres cut 40 - 15 = 25; of them 20 on base cut 5, and 10 on base nothing.
//
// Source: 7 U.S.C. 9014(e).
func TestFruitAndVegetablesOnBase(t *testing.T) {
	for name, one := range map[string]struct {
		onBase *float64
		want   float64
		says   string
	}{
		"not stated":                  {nil, 85 - 25, "assumed to be planted on base"},
		"20 of them on base":          {invented.Number(20), 85 - 5, "20.00 acres of fruit"},
		"10 of them on base":          {invented.Number(10), 85, "they cut nothing"},
		"all of them beside the base": {invented.Number(0), 85, "they cut nothing"},
	} {
		c := cases.Corn()
		c.Operation.Farms[0].Bases = []farm.Base{invented.Base(crop.Corn, 100, 150)}
		cases.Plant(&c, "fruit_vegetables", 40, 0)
		c.Operation.Farms[0].Planted[0].OnBase = one.onBase
		if got := float64(only(t, c).Bases[0].PaymentAcres); math.Abs(got-one.want) > 1e-9 {
			t.Errorf("%s: %v payment acres, want %v", name, got, one.want)
		}
		says(t, c, 2026, "fruit_vegetables", one.says)
	}
}

// A pass-through entity without members is refused in a crop year whose limit goes by
// them, and is one of one limit before.
func TestEntityWithoutMembers(t *testing.T) {
	c := cases.SharedOperation(1500, []farm.Producer{{ID: "firm", Kind: farm.PassThrough}}, farm.Shares{"firm": 1})
	if _, err := compare.Answer(c); err == nil || !strings.Contains(err.Error(), `producer "firm" is a pass_through without members`) {
		t.Errorf("crop year 2026: %v", err)
	}
	if _, err := limits.NewRules(c.Operation, 2025); err != nil {
		t.Errorf("crop year 2025: %v", err)
	}
}
