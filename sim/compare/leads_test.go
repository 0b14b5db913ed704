package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// priced is cases.Corn at another price, price SD, payment yield and county yield.
func priced(price, volatility, paymentYield, countyYield float64) answer.Question {
	c := cases.Corn()
	invented.Project(c.Market, crop.Corn, 2026, price, volatility)
	c.Operation.Farms[0].Bases[0].PaymentYield = &paymentYield
	c.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{Yield: &countyYield, KnownFrom: "local_harvest"}))
	return c
}

// Clear, close and little chance are distinguished by the mean difference, its range
// over the band, and how often anything is paid.
func TestLeaders(t *testing.T) {
	for _, f := range []struct {
		name          string
		c             answer.Question
		leader, leans answer.Leader
	}{
		{"a low price on a high payment yield is clearly PLC", priced(3.70, 0.05, 180, 188), answer.LeadsPLC, answer.LeadsPLC},
		{"a short county crop at a price above the target is clearly ARC-CO", priced(4.70, 0.05, 120, 160), answer.LeadsARCCO, answer.LeadsARCCO},
		{"where the lead turns within a usual error of the price it is close", priced(3.65, 0.05, 150, 188), answer.Close, answer.LeadsPLC},
		{"where the averages are under two dollars apart it is close", priced(3.80, 0.05, 150, 188), answer.Close, answer.LeadsARCCO},
		{"far above both triggers there is little chance", priced(6.50, 0.05, 150, 188), answer.LittleChance, ""},
	} {
		p := only(t, f.c)
		if p.Leader != f.leader || f.leans != "" && p.Leans != f.leans {
			t.Errorf("%s: leader %s (%s), leans %s, difference %+v, neither %v; want %s, %s", f.name, p.Leader, p.LeaderReason, p.Leans, *p.Difference, *p.ChanceNeitherPays, f.leader, f.leans)
		}
	}
}

// The four chances add to one.
func TestChancesAddToOne(t *testing.T) {
	p := only(t, priced(4.12, 0.07, 150, 176))
	sum := *p.ChanceNeitherPays + *p.ChanceARCCOMore + *p.ChancePLCMore + *p.ChanceEqual
	if math.Abs(float64(sum)-1) > 1e-9 {
		t.Errorf("the four chances add to %v", sum)
	}
}

// The close margin is the user's to set.
func TestCloseMargin(t *testing.T) {
	c := priced(3.70, 0.05, 180, 188)
	c.Operation.Settings.CloseMargin = invented.Number(1000)
	if p := only(t, c); p.Leader != answer.Close {
		t.Errorf("with a margin of 1000 the leader is %s", p.Leader)
	}
}

// At the mean yields, worked by hand: guarantee 847.91, maximum 113.05 (0.12 x
// 942.12); with a county yield of 188 ARC-CO pays max(0, 847.91 - 188 P) x 0.85
// up to 96.09, PLC (4.42 - P) x 150 x 0.85. PLC leads below 3.67 (at 3.67: PLC
// 95.625, ARC-CO 96.0925), ARC-CO from 3.67 to below 4.42? at 4.42 PLC pays
// nothing and ARC-CO (847.91 - 830.96) x 0.85 = 14.41, so ARC-CO leads until
// 188 P reaches 847.91, at 4.52.
func TestLeadByPrice(t *testing.T) {
	p := only(t, cases.Corn())
	want := []struct {
		below  float64
		leader answer.Leader
	}{{3.67, answer.LeadsPLC}, {4.52, answer.LeadsARCCO}, {0, answer.Neither}}
	checkLeads(t, p.LeadByPrice, want)
}

// A base whose lead changes twice between the programs: at a county yield of
// 196 and a payment yield of 120, PLC leads at very low prices, ARC-CO in
// between, PLC again just under the target price 4.42, where ARC-CO (which
// starts at 847.91 / 196 = 4.326) does not pay yet.
func TestLeadChangesTwice(t *testing.T) {
	p := only(t, priced(4.10, 0.07, 120, 196))
	// PLC 102 x (4.42 - P), ARC-CO min(96.0925, 0.85 x (847.91 - 196 P)).
	// Low end: 102 x (4.42 - P) > 96.0925 below P = 3.4779, so PLC up to 3.47.
	// High end: 102 x (4.42 - P) > 720.7235 - 166.6 P from P = 4.1776 on.
	want := []struct {
		below  float64
		leader answer.Leader
	}{{3.48, answer.LeadsPLC}, {4.18, answer.LeadsARCCO}, {4.42, answer.LeadsPLC}, {0, answer.Neither}}
	checkLeads(t, p.LeadByPrice, want)
}

func checkLeads(t *testing.T, got []answer.Lead, want []struct {
	below  float64
	leader answer.Leader
}) {
	t.Helper()
	if len(got) != len(want) {
		t.Fatalf("leads %s, want %v", invented.AsJSON(t, got), want)
	}
	for i, lead := range got {
		below := 0.0
		if lead.Below != nil {
			below = lead.Below.Value
		}
		if lead.Leader != want[i].leader || math.Abs(below-want[i].below) > 1e-9 {
			t.Errorf("lead %d is %s, want %v", i, invented.AsJSON(t, lead), want[i])
		}
	}
}

// The even payment yield x mean PLC rate x 0.85 is the mean of ARC-CO to the cent.
func TestEvenPaymentYield(t *testing.T) {
	c := priced(4.12, 0.07, 150, 176)
	p := only(t, c)
	c.Operation.Farms[0].Bases[0].PaymentYield = invented.Number(float64(*p.EvenPaymentYield))
	even := only(t, c)
	if math.Abs(float64(even.Programs.Of(farm.PLC).Mean-even.Programs.Of(farm.ARCCO).Mean)) > 0.005 {
		t.Errorf("at the even payment yield %v PLC averages %v and ARC-CO %v", *p.EvenPaymentYield, even.Programs.Of(farm.PLC).Mean, even.Programs.Of(farm.ARCCO).Mean)
	}
	none := only(t, priced(9.00, 0, 150, 60))
	if none.EvenPaymentYield != nil {
		t.Errorf("PLC never pays, but the even payment yield is %v", *none.EvenPaymentYield)
	}
}

// What a wrong election costs is the mean of what the other pays more: the two costs
// differ by the difference of the averages.
func TestCostOfTheWrongElection(t *testing.T) {
	p := only(t, cases.Corn())
	plc, arc := float64(*p.Programs.Of(farm.PLC).CostOfWrongElection), float64(*p.Programs.Of(farm.ARCCO).CostOfWrongElection)
	const tolerance = 1e-6
	if plc < 0 || arc < 0 || math.Abs(plc-arc-float64(p.Difference.Mean)) > tolerance {
		t.Errorf("picking PLC costs %v, ARC-CO %v, the averages differ by %v", plc, arc, p.Difference.Mean)
	}
}
