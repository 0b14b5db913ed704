package insurance

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// insured is an answer with one farm whose corn has SCO.
func insured(change func(c *answer.InsuredCrop)) answer.Comparison {
	c := answer.InsuredCrop{
		Commodity: crop.Corn, Plan: farm.RevenueProtection, Level: 0.75, ApprovedYield: 180, InsuredAcres: 100, BaseAcres: 120, ProjectedPrice: answer.Price{Value: 4.62, Decimals: 2}, ExpectedYield: 188, AreaYield: answer.DollarsOf(185), AreaYieldStatus: crop.Assumed, AreaYieldRatio: 1,
		HarvestPrice: &answer.Price{Value: 4.62, Decimals: 2}, Volatility: answer.ChanceOf(0.2), Sales: answer.Sales{Standing: "open", LastDay: "2027-03-15", Status: crop.Unverified, Source: "rows"},
		Layers:   []answer.InsuredLayer{{Layer: farm.SCO, Trigger: 0.90, LowerEnd: 0.75, Protection: answer.DollarsOf(100), PaysBelow: answer.DollarsOf(169.2), Average: answer.DollarsOf(12), ChanceOfPayment: answer.ChanceOf(0.31), Premium: answer.DollarsOf(5), Net: answer.DollarsOf(7), Steps: []answer.AreaStep{{Name: "payment_factor", Words: "payment factor", Value: 0.2317, Unit: "1"}}}},
		Together: []answer.InsuranceRow{{Program: farm.PLC, Average: answer.DollarsOf(500)}, {Program: farm.PLC, Layers: []farm.Program{farm.SCO}, Average: answer.DollarsOf(1200)}, {Layers: []farm.Program{farm.SCO}, Average: answer.DollarsOf(700)}},
		Overlap:  []answer.Overlap{{Program: farm.ARCCO, Layer: farm.SCO, Both: 0.31, OnlyProgram: 0.2, OnlyLayer: 0.09, Neither: 0.4}},
	}
	if change != nil {
		change(&c)
	}
	f := answer.FarmPart{Farm: "99001-0417", Insurance: &answer.Insurance{Crops: []answer.InsuredCrop{c}, InsuredAcres: 100, BaseAcres: 120, YieldsOut: "2028-06-13", Unconfirmed: []string{"RMA 27-SCO, sec. 1"},
		WholeFarm: []answer.InsuranceRow{{Choice: answer.Choice{crop.Corn: farm.PLC}, Average: answer.DollarsOf(500)}, {Choice: answer.Choice{crop.Corn: farm.PLC, crop.Wheat: farm.ARCCO}, Layers: []farm.Program{farm.SCO}}}}}
	return answer.Comparison{Today: "2026-11-25", CropYears: []answer.YearPart{{CropYear: 2027, Farms: []answer.FarmPart{f}}}}
}

// words are all texts and cells of some blocks.
func words(blocks []report.Block) string { return fmt.Sprint(blocks) }

// What is shown says on which terms, what is not confirmed, that it is no advice; nothing is
// shown of a farm without insurance.
func TestOfSaysItsTerms(t *testing.T) {
	all := words(Of(insured(nil), Options{Worked: true, Pictures: true}))
	for _, want := range []string{"farm 0417, 2027", "first to close first: corn (March 15, 2027, not confirmed)", "RP at 75 percent", "volatility factor 0.20", "taken as FSA's county yield", "90 to 75", "169.2", "PLC with SCO",
		"How often do ARC-CO and SCO pay?", "licensed insurance agent decides and quotes", "Not confirmed", "June 13, 2028", "wheat ARC-CO, corn PLC with SCO", "SCO on corn, one acre at the average area yield", "payment factor 0.2317", "without the crop's own revenue", "$1,200"} {
		if !strings.Contains(all, want) {
			t.Errorf("lacks %q:\n%s", want, all)
		}
	}
	plain := words(Of(insured(nil), Options{}))
	for _, want := range []string{"SCO alone $700", "In 31 of 100 outcomes ARC-CO and SCO both pay. ARC-CO alone pays in 20, SCO alone in 9, neither in 40."} {
		if !strings.Contains(plain, want) {
			t.Errorf("lacks %q:\n%s", want, plain)
		}
	}
	if blocks := Of(insured(nil), Options{Farm: "99001-0999"}); blocks != nil {
		t.Errorf("of another farm: %v", blocks)
	}
	c := insured(nil)
	c.CropYears[0].Farms[0].Insurance = nil
	if blocks := Of(c, Options{Worked: true, Pictures: true}); blocks != nil {
		t.Errorf("without insurance: %v", blocks)
	}
}

// Where something is missing that is said, and no figure stands in its place.
func TestOfSaysWhatIsMissing(t *testing.T) {
	for _, c := range []struct {
		change func(c *answer.InsuredCrop)
		says   []string
	}{
		{func(c *answer.InsuredCrop) { c.Missing = "a county yield of corn" }, []string{"There are no figures: a county yield of corn is missing."}},
		{func(c *answer.InsuredCrop) { c.Layers[0].Missing = "a trigger of 90 percent is not offered" }, []string{"SCO is left out: a trigger of 90 percent is not offered."}},
		{func(c *answer.InsuredCrop) { c.Layers[0].Premium, c.Layers[0].Net = nil, nil }, []string{"Not in the table: SCO.", "it is never guessed"}},
		{func(c *answer.InsuredCrop) { c.Layers[0].FromTotal, c.Layers[0].Subsidy = true, 0.8 }, []string{"a subsidy of 80 percent (not confirmed)"}},
		{func(c *answer.InsuredCrop) { c.AreaYieldFrom = "before_harvest" }, []string{"say more than such layers paid in 2013 to 2024"}},
		{func(c *answer.InsuredCrop) { c.HarvestPriceOut = true }, []string{"It may be published by now"}},
		{func(c *answer.InsuredCrop) { c.HarvestPrice, c.Plan = nil, farm.YieldProtection }, []string{"the harvest price does not enter"}},
		{func(c *answer.InsuredCrop) { c.Sales = answer.Sales{Standing: "unknown"} }, []string{"not known here for corn: ask your agent"}},
		{func(c *answer.InsuredCrop) { c.Sales = answer.Sales{Standing: "given"} }, []string{"that insurance is given, and counted as it stands"}},
		{func(c *answer.InsuredCrop) { c.AreaYieldRatio, c.AreaYield = 0.42, answer.DollarsOf(75) }, []string{"taken as 42 percent of FSA's county yield"}},
		{func(c *answer.InsuredCrop) { c.Level, c.BaseAcres = 0, 0 }, []string{"no base"}},
	} {
		all := words(Of(insured(c.change), Options{Worked: true, Pictures: true}))
		for _, want := range c.says {
			if !strings.Contains(all, want) {
				t.Errorf("lacks %q:\n%s", want, all)
			}
		}
	}
}

// Sentences stay within 25 words.
func TestSentencesAreShort(t *testing.T) {
	const most = 25
	for _, b := range Of(insured(nil), Options{Worked: true, Pictures: true}) {
		var said []string
		switch b := b.(type) {
		case report.Text:
			said = []string{string(b)}
		case report.Small:
			said = []string{string(b)}
		case report.Lines:
			said = b
		}
		for _, text := range said {
			for _, s := range strings.Split(text, ". ") {
				if n := len(slices.DeleteFunc(strings.Fields(s), func(w string) bool { return !strings.ContainsAny(w, "abcdefghijklmnopqrstuvwxyz") })); n > most {
					t.Errorf("%d words: %s", n, s)
				}
			}
		}
	}
}
