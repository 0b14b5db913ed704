package wording

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Every division of 100 outcomes is told whole, the larger side first.
func TestOddsTellEveryOutcome(t *testing.T) {
	for _, c := range []struct {
		neither, arc, plc, equal answer.Chance
		want                     string
	}{
		{0, .17, .83, 0, "PLC pays more in 83 of 100 outcomes, and ARC-CO in 17."},
		{1, 0, 0, 0, "Neither program pays in any of 100 outcomes."},
		{0, 1, 0, 0, "ARC-CO pays more in 100 of 100 outcomes, and PLC in none."},
		{.5, .3, .1999, .0001, "ARC-CO pays more in 30 of 100 outcomes, PLC in 20, and neither pays in 50."},
		{.4, .3, .1, .2, "ARC-CO pays more in 30 of 100 outcomes, PLC in 10, both the same in 20, and neither pays in 40."},
		{.5, .499, .001, 0, "ARC-CO pays more in 50 of 100 outcomes, PLC in fewer than 1, and neither pays in 50."},
	} {
		if got := Odds(answer.CommodityPart{ChanceNeitherPays: &c.neither, ChanceARCCOMore: &c.arc, ChancePLCMore: &c.plc, ChanceEqual: &c.equal}); got != c.want {
			t.Errorf("%+v:\n got %s\nwant %s", c, got, c.want)
		}
	}
}

// A margin under $5 has cents; a range that crosses zero names both programs.
func TestMarginsAndRanges(t *testing.T) {
	for d, want := range map[answer.Dollars]string{25.90: "$26", -8.37: "$8", 4.99: "$4.99", -0.5: "$0.50", 0: "$0.00"} {
		if got := Margin(d); got != want {
			t.Errorf("%v: %s, want %s", d, got, want)
		}
	}
	for want, d := range map[string]answer.Difference{
		"from $10 to $41":                   {Lowest: 10.46, Highest: 40.85},
		"from $8 to $16":                    {Lowest: -16.2, Highest: -8},
		"from $1.10 to $4.90":               {Lowest: 1.1, Highest: 4.9},
		"from $1 for PLC to $15 for ARC-CO": {Lowest: -1.25, Highest: 15},
	} {
		if got := Between(d); got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
}

// An interval of prices narrower than a cent in a dollar is not told.
func TestNarrowIntervalsAreLeftOut(t *testing.T) {
	at := func(x float64) *answer.Price { return &answer.Price{Value: x, Decimals: 2} }
	wheat := answer.CommodityPart{
		Commodity: crop.Wheat, MYA: &answer.PriceView{Mean: *at(6)},
		LeadByPrice: []answer.Lead{{Below: at(6.01), Leader: answer.LeadsPLC}, {Below: at(6.02), Leader: answer.LeadsARCCO}, {Leader: answer.Neither}},
		Bases:       []answer.BasePart{{BaseAcres: 10, CountyYield: &answer.YieldView{Mean: 45.4}}},
	}
	if got, want := PriceLeads(wheat), "If the county makes 45.4 bushels: PLC pays more below $6.01, and neither pays from $6.01 up."; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}

// A sentence ends at a full stop before a capital letter, not within a citation.
func TestFirstSentences(t *testing.T) {
	const text = "By P.L. 119-21 it is so. Ask vs. corn. Then go."
	for n, want := range map[int]string{1: "By P.L. 119-21 it is so.", 2: "By P.L. 119-21 it is so. Ask vs. corn.", 3: text, 9: text} {
		if got := FirstSentences(text, n); got != want {
			t.Errorf("%d: %q, want %q", n, got, want)
		}
	}
}

// A choice is written crop by crop in FSA's order, ARC-IC once for the whole farm; lines
// left out are named as people do, without the letters of keys.
func TestProgramsAndLines(t *testing.T) {
	for want, choice := range map[string]answer.Choice{
		"corn PLC, soybeans ARC-CO": {crop.Soybeans: farm.ARCCO, crop.Corn: farm.PLC},
		"ARC-IC, the whole farm":    {crop.Soybeans: farm.ARCIC, crop.Corn: farm.ARCIC},
		"":                          {},
	} {
		if got := Programs(choice); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	among := []answer.FarmPart{{Farm: "99001-0417"}, {Farm: "99003-1203"}}
	if got := FarmsAndCrops([]string{"99001-0417 grain_sorghum", "99003-1203 corn"}, among); !slices.Equal(got, []string{"0417 grain sorghum", "1203 corn"}) {
		t.Errorf("%q", got)
	}
}
