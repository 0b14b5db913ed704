package operation

import (
	"errors"
	"reflect"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/sound"
)

const insuredText = `{crop_year: 2026, commodity: corn, practice: irrigated, plan: rp, coverage_level: 75%, approved_yield: 180, acres: 110.5, share: 0.5, projected_price: $4.62, harvest_price: 4.25, volatility: 0.18,
      expected_area_yield: 188, final_area_yield: 170, area_yield_ratio: 0.98, closes: 2026-03-15, layers: [{layer: sco, coverage_percentage: 0.9, premium: 3.10}, {layer: ECO, trigger: 95%, total_premium: 40}]}`

func number(x float64) *float64 { return &x }

// All keys of an entry, under a farm and in a file of its own.
func TestInsuranceIsRead(t *testing.T) {
	want := farm.Insurance{CropYear: 2026, Commodity: crop.Corn, Practice: farm.Irrigated, Plan: farm.RevenueProtection, Level: 0.75, ApprovedYield: 180, Acres: 110.5, Share: 0.5,
		Projected: 4.62, Harvest: number(4.25), Volatility: number(0.18), ExpectedYield: 188, FinalYield: number(170), YieldRatio: 0.98, Closes: "2026-03-15",
		Layers: []farm.Layer{{Program: farm.SCO, Percentage: 0.9, Premium: number(3.10)}, {Program: farm.ECO, Trigger: 0.95, Total: number(40)}}}
	o, err := Parse("farms.yaml", []byte("format: fencerow/operation/1\nfarms:\n  - farm: 0417\n    county: 99001\n    bases: [{commodity: corn, base_acres: 120}]\n    insurance:\n    - "+insuredText+"\n"))
	if err != nil || len(o.Farms[0].Insurance) != 1 || !reflect.DeepEqual(o.Farms[0].Insurance[0], want) {
		t.Errorf("%+v, %v, want %+v", o.Farms, err, want)
	}
	all, err := ParseInsurance("insurance.yaml", []byte("format: fencerow/insurance/1\ninsurance:\n  - "+strings.Replace(insuredText, "{", "{farm: 99001-0417, ", 1)+"\n"))
	if err != nil || len(all) != 1 || all[0].Farm != "99001-0417" || !reflect.DeepEqual(all[0].Insurance, want) {
		t.Errorf("%+v, %v", all, err)
	}
}

// What no policy has is refused with its line and what to do.
func TestInsuranceIsRefused(t *testing.T) {
	plain := `crop_year: 2026, commodity: corn, plan: RP, coverage_level: 0.75, approved_yield: 180, acres: 100, projected_price: 4.62, expected_area_yield: 188, layers: [{layer: SCO}]`
	for _, c := range []struct{ from, to, says string }{
		{"plan: RP", "plan: APH", "YP, RP, RP-HPE"},
		{"acres: 100", "acres: 0", "write the planted acres"},
		{"coverage_level: 0.75, ", "", "has no coverage_level or approved_yield"},
		{"coverage_level: 0.75", "coverage_level: 75", "coverage_level"},
		{"layer: SCO", "layer: MCO", "SCO, ECO, STAX"},
		{"{layer: SCO}", "{layer: SCO}, {layer: SCO}", "stands twice"},
		{"{layer: SCO}", "{layer: SCO, premium: 3, total_premium: 9}", "what you pay an acre"},
		{"{layer: SCO}", "{layer: SCO, premium: -3}", "cannot be negative"},
		{"plan: RP", "plan: YP, area_yield_ratio: 0", "above 0"},
		{"plan: RP", "plan: RP, volatility: 18", "0.18"},
		{"projected_price: 4.62", "projected_price: 0", "dollars per unit"},
		{"commodity: corn", "commodity: gold", "no covered crop"},
		{"plan: RP", "plan: YP", ""},
		{"plan: RP, coverage_level: 0.75, approved_yield: 180", "plan: YP", "has no coverage_level"},
		{"layers: [{layer: SCO}]", "layers: [{layer: STAX, protection_factor: 1.2, coverage_percentage: 1}]", "protection factor"},
	} {
		_, err := ParseInsurance("insurance.yaml", []byte("format: fencerow/insurance/1\ninsurance:\n  - {farm: 1, "+strings.Replace(plain, c.from, c.to, 1)+"}\n"))
		if c.says == "" {
			if err != nil {
				t.Errorf("%s: %v", c.to, err)
			}
			continue
		}
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || len(mistakes) == 0 {
			t.Errorf("%s: %v, want a mistake", c.to, err)
			continue
		}
		if all := mistakes[0].Reason + " | " + mistakes[0].Hint; !strings.Contains(all, c.says) || mistakes[0].Line != 3 {
			t.Errorf("%s: %s, want %q on line 3", c.to, all, c.says)
		}
	}
}

// Any text is read or refused.
func FuzzInsurance(f *testing.F) {
	starts := []string{"format: fencerow/insurance/1\ninsurance:\n  - " + strings.Replace(insuredText, "{", "{farm: 1, ", 1)}
	sound.ReadWords(f, "testdata/fuzz/words.txt").Fuzz(f, starts, func(t *testing.T, text []byte) {
		all, err := ParseInsurance("insurance.yaml", text)
		if err != nil && all != nil {
			t.Errorf("%v with %v", all, err)
		}
		if err := sound.Finite(all); err != nil {
			t.Error(err)
		}
	})
}
