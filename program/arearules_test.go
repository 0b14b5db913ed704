package program

import (
	"errors"
	"math/rand/v2"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// The layers of a crop year: what the rows say at both sides of each change, and that
// nothing is answered before a layer existed or for a crop it does not have.
func TestLayersByCropYear(t *testing.T) {
	for _, c := range []struct {
		layer                   farm.Program
		plan                    farm.Plan
		crop                    crop.Commodity
		year                    crop.CropYear
		trigger, least, subsidy float64
	}{
		{farm.SCO, farm.RevenueProtection, crop.Corn, 2025, 0.86, 0.86, 0.65},
		{farm.SCO, farm.RevenueProtection, crop.Corn, 2026, 0.86, 0.86, 0.80},
		{farm.SCO, farm.YieldProtection, crop.Wheat, 2027, 0.90, 0.90, 0.80},
		{farm.ECO, farm.YieldProtection, crop.Corn, 2024, 0.95, 0.90, 0.51},
		{farm.ECO, farm.RevenueProtection, crop.Corn, 2024, 0.95, 0.90, 0.44},
		{farm.ECO, farm.RevenueProtection, crop.Corn, 2026, 0.95, 0.90, 0.80},
		{farm.ECO, farm.HarvestPriceExclude, crop.Soybeans, 2027, 0.95, 0.95, 0.80},
		{farm.STAX, farm.RevenueProtection, crop.SeedCotton, 2026, 0.90, 0.75, 0.80},
	} {
		terms, err := AreaTermsFor(c.layer, c.plan, c.crop, c.year)
		if err != nil || terms.Trigger != c.trigger || terms.LeastTrigger != c.least || terms.Subsidy != c.subsidy {
			t.Errorf("%s %s %d: %+v, %v; want trigger %v, least %v, subsidy %v", c.layer, c.crop, c.year, terms, err, c.trigger, c.least, c.subsidy)
		}
	}
	for _, c := range []struct {
		layer farm.Program
		crop  crop.Commodity
		year  crop.CropYear
	}{{farm.SCO, crop.Corn, 2014}, {farm.ECO, crop.Corn, 2020}, {farm.STAX, crop.Corn, 2026}} {
		if terms, err := AreaTermsFor(c.layer, farm.RevenueProtection, c.crop, c.year); !errors.Is(err, law.ErrNoValue) {
			t.Errorf("%s %s %d: %+v, %v; want no value", c.layer, c.crop, c.year, terms, err)
		}
	}
	if _, err := AreaTermsFor(farm.PLC, farm.RevenueProtection, crop.Corn, 2026); err == nil {
		t.Error("PLC is no layer")
	}
}

// A band is where the law puts it, and what cannot be bought says why.
func TestBandsAsBought(t *testing.T) {
	for _, c := range []struct {
		layer         farm.Layer
		level         float64
		year          crop.CropYear
		crop          crop.Commodity
		trigger, wide float64
		why           string
	}{
		{farm.Layer{Program: farm.SCO}, 0.75, 2026, crop.Corn, 0.86, 0.11, ""},
		{farm.Layer{Program: farm.SCO}, 0.80, 2027, crop.Corn, 0.90, 0.10, ""},
		{farm.Layer{Program: farm.SCO, Percentage: 0.4}, 0.75, 2026, crop.Corn, 0, 0, "percentage of 40 percent"},
		{farm.Layer{Program: farm.SCO, Percentage: 0.9}, 0.75, 2018, crop.Corn, 0, 0, "100 percent to 100 percent"},
		{farm.Layer{Program: farm.ECO, Trigger: 0.95}, 0.75, 2026, crop.Corn, 0.95, 0.09, ""},
		{farm.Layer{Program: farm.ECO, Trigger: 0.90}, 0.75, 2026, crop.Corn, 0.90, 0.04, ""},
		{farm.Layer{Program: farm.ECO, Trigger: 0.90}, 0.75, 2027, crop.Corn, 0, 0, "it can be 95 percent"},
		{farm.Layer{Program: farm.ECO}, 0.75, 2026, crop.Corn, 0, 0, "the trigger is not given: it can be 90 percent or 95 percent"},
		{farm.Layer{Program: farm.ECO}, 0.75, 2027, crop.Corn, 0.95, 0.05, ""},
		{farm.Layer{Program: farm.STAX, Trigger: 0.90, Range: 0.20}, 0.75, 2026, crop.SeedCotton, 0.90, 0.15, ""},
		{farm.Layer{Program: farm.STAX, Trigger: 0.90, Range: 0.20}, 0, 2026, crop.SeedCotton, 0.90, 0.20, ""},
		{farm.Layer{Program: farm.STAX, Trigger: 0.75, Range: 0.20}, 0, 2026, crop.SeedCotton, 0.75, 0.05, ""},
		{farm.Layer{Program: farm.STAX, Trigger: 0.75, Range: 0.20}, 0.75, 2026, crop.SeedCotton, 0, 0, "leaves less than 5 percent"},
		{farm.Layer{Program: farm.STAX, Trigger: 0.88, Range: 0.20}, 0, 2026, crop.SeedCotton, 0, 0, "75 percent to 90 percent by 5 percent"},
		{farm.Layer{Program: farm.STAX, Trigger: 0.90}, 0, 2026, crop.SeedCotton, 0, 0, "a range of 0 percent"},
		{farm.Layer{Program: farm.STAX, Trigger: 0.90, Range: 0.2, Percentage: 1.3}, 0, 2026, crop.SeedCotton, 0, 0, "80 percent to 120 percent"},
	} {
		terms, err := AreaTermsFor(c.layer.Program, farm.RevenueProtection, c.crop, c.year)
		if err != nil {
			t.Fatal(err)
		}
		b, why := terms.Band(c.layer, c.level)
		if c.why != "" {
			if !strings.Contains(why, c.why) {
				t.Errorf("%+v at %v in %d: %q, want %q", c.layer, c.level, c.year, why, c.why)
			}
			continue
		}
		if why != "" || b.Trigger != c.trigger || b.Range != c.wide {
			t.Errorf("%+v at %v in %d: %+v, %q; want trigger %v, range %v", c.layer, c.level, c.year, b, why, c.trigger, c.wide)
		}
	}
}

// A thousand invented areas: what a layer pays lies between nothing and its protection, is
// nothing from the trigger on, falls as the final yield rises, and is no less under RP than
// under RP-HPE. Under YP no price moves it.
func TestIndemnityLiesInItsBand(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	for range 1000 {
		b := Band{Trigger: 0.75 + 0.05*float64(r.IntN(5)), Range: 0.05 + 0.05*float64(r.IntN(4))}
		expected, projected := 20+200*r.Float64(), 0.5+15*r.Float64()
		final, harvest := expected*(0.3+r.Float64()), projected*(0.5+r.Float64())
		pays := func(plan farm.Plan, final, harvest float64) float64 {
			protection := b.Protection(CropValue(1000, 100, InsuredPrice(plan, projected, harvest), 1), 1)
			paid := Indemnity(protection, b.Factor(AreaRatio(plan, expected, final, projected, harvest)))
			if paid < 0 || paid > protection+HalfCent {
				t.Errorf("%+v %s: paid %v of %v", b, plan, paid, protection)
			}
			return paid
		}
		rp, hpe := pays(farm.RevenueProtection, final, harvest), pays(farm.HarvestPriceExclude, final, harvest)
		if rp < hpe-OneCent {
			t.Errorf("RP pays %v, RP-HPE %v at %v of %v, %v over %v", rp, hpe, final, expected, harvest, projected)
		}
		if more := pays(farm.RevenueProtection, final*1.1, harvest); more > rp+OneCent {
			t.Errorf("a higher yield pays %v more", more-rp)
		}
		if yp := pays(farm.YieldProtection, final, harvest); yp != pays(farm.YieldProtection, final, 3*harvest) {
			t.Errorf("YP moves with the harvest price")
		}
		start := b.BreakEvenYield(farm.RevenueProtection, expected, projected, harvest)
		if above := pays(farm.RevenueProtection, start*(1+1e-9), harvest); above != 0 {
			t.Errorf("above the yield where it starts it pays %v", above)
		}
		if below := pays(farm.RevenueProtection, start*0.99, harvest); below == 0 {
			t.Errorf("one percent below the yield where it starts it pays nothing")
		}
	}
	if f := (Band{Trigger: 0.86}).Factor(0.5); f != 0 {
		t.Errorf("a band without a range pays a factor of %v", f)
	}
}
