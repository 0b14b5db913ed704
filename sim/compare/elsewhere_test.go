package compare_test

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// By hand for cases.Corn with price and yield known to be 4.80 and 188:
// guarantee 847.91, maximum 113.05. ARC-CO pays while 188 x price is below
// 847.91: up to 4.51 (847.88), and its most while 188 x price is at most 734.86:
// 3.90 (733.20). At 4.80 it pays while the yield is below 176.65: 93 percent
// (174.84 x 4.80 = 839.23), and its most at most 153.10: 81 percent (152.28). PLC
// pays below 4.42, its most at 2.42.
func TestStartPoints(t *testing.T) {
	c := cases.Corn()
	invented.Project(c.Market, crop.Corn, 2026, 4.80, 0)
	c.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), KnownFrom: "final", SD: invented.Number(0)}))
	s := only(t, c).StartPoints
	for name, pair := range map[string][2]float64{
		"PLC pays below":                {s.PLCBelow.Value, 4.42},
		"PLC pays its most at":          {s.PLCMost.Value, 2.42},
		"ARC-CO pays up to price":       {s.ARCCOBelowPrice.Value, 4.51},
		"ARC-CO its most at price":      {s.ARCCOMostPrice.Value, 3.90},
		"ARC-CO pays up to yield":       {float64(*s.ARCCOBelowYield), 0.93},
		"ARC-CO pays its most at yield": {float64(*s.ARCCOMostYield), 0.81},
	} {
		if math.Abs(pair[0]-pair[1]) > 1e-9 {
			t.Errorf("%s %v, want %v", name, pair[0], pair[1])
		}
	}
}

// The table of other prices and yields pays what explain pays there.
func TestElsewhereEqualsExplain(t *testing.T) {
	c := cases.Corn()
	p := only(t, c)
	if len(p.Elsewhere) != len(answer.OtherParts)*len(answer.OtherParts) {
		t.Fatalf("%d payments", len(p.Elsewhere))
	}
	for _, at := range p.Elsewhere {
		yield := invented.HalfUp(188*float64(at.Yields), 2)
		e, err := explain.Explain(c, c.Operation.Farms[0], crop.Corn, 2026, explain.Given{MYA: at.Price.Value, CountyYield: explain.CountyYields{{}: yield}})
		if err != nil {
			t.Fatal(err)
		}
		const half = 0.005 + 1e-9
		if math.Abs(float64(*e.Programs.Of(farm.PLC).PaymentPerBaseAcre-at.PLC)) > half || math.Abs(float64(*e.Programs.Of(farm.ARCCO).PaymentPerBaseAcre-at.ARCCO)) > half {
			t.Errorf("at %v and %v of the yield: %v and %v, explain %v and %v", at.Price.Value, at.Yields, at.PLC, at.ARCCO, *e.Programs.Of(farm.PLC).PaymentPerBaseAcre, *e.Programs.Of(farm.ARCCO).PaymentPerBaseAcre)
		}
	}
}

// At a mean price of 4.20 PLC pays 0.22 x 150 x 0.85 = 28.05 and ARC-CO leads at
// low yields: from 847.91 less 28.05/0.85 = 33.00 down, 814.91/4.20 = 194.03,
// 103 percent of 188 (193.64).
func TestLeadByYield(t *testing.T) {
	c := cases.Corn()
	invented.Project(c.Market, crop.Corn, 2026, 4.20, -1)
	leads := only(t, c).LeadByYield
	if len(leads) != 2 || leads[0].Leader != answer.LeadsARCCO || float64(*leads[0].Below) != 1.04 || leads[1].Leader != answer.LeadsPLC || leads[1].Below != nil {
		t.Errorf("%s", invented.AsJSON(t, leads))
	}
}
