package wording

import (
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// County yields at which the lead changes are told in bushels of the yield used: 100 here,
// so that shares are bushels. Neighbors with the same leader are one.
func TestYieldLeads(t *testing.T) {
	lead := func(below float64, l answer.Leader) answer.YieldLead {
		if below == 0 {
			return answer.YieldLead{Leader: l}
		}
		return answer.YieldLead{Below: answer.ChanceOf(below), Leader: l}
	}
	part := answer.CommodityPart{Commodity: crop.Corn, MYA: &answer.PriceView{Mean: answer.Price{Value: 4.2, Decimals: 2}}, Bases: []answer.BasePart{{BaseAcres: 100, CountyYield: &answer.YieldView{Mean: 100}}}}
	for want, leads := range map[string][]answer.YieldLead{
		"": {},
		"At $4.20 PLC pays more at any county yield.":                                          {lead(0, answer.LeadsPLC)},
		"At $4.20: ARC-CO pays more below about 104 bushels, and PLC pays more from there up.": {lead(0.9, answer.LeadsARCCO), lead(1.04, answer.LeadsARCCO), lead(0, answer.LeadsPLC)},
		"At $4.20: PLC pays more below about 80 bushels, and ARC-CO pays more from there to about 104 bushels. PLC pays more from there to about 110 bushels. Neither pays from there up.": {lead(0.8, answer.LeadsPLC), lead(1.04, answer.LeadsARCCO), lead(1.1, answer.LeadsPLC), lead(0, answer.Neither)},
	} {
		part.LeadByYield = leads
		if got := YieldLeads(part); got != want {
			t.Errorf("%q, want %q", got, want)
		}
	}
	part.Bases = append(part.Bases, answer.BasePart{BaseAcres: 10, CountyYield: &answer.YieldView{Mean: 90}})
	if got := YieldLeads(part); got != "" || OneYield(part) != nil {
		t.Errorf("of two county yields: %q", got)
	}
}
