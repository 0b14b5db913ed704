package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// inDoubt asks about corn at a sure price of 4.20 in a county whose yields of 2015 to 2024
// are all 170, so that their trend is 170; the mean of the five adjusted yields is 186.686,
// the benchmark 187.30. The spread of the yield is a thousandth of a bushel.
//
// Per base acre ARC-CO pays (847.91 - 4.20 x yield) x 0.85: at 187.30 61.25, 52.06; at
// 186.686 63.83, 54.25; at 170 and up to 174.9 its most, 96.09. PLC pays 0.22 x 0.85 for
// each unit of the payment yield.
func inDoubt(paymentYield float64) answer.Question {
	c := priced(4.20, 0, paymentYield, 0)
	c.Counties = invented.Book(doubtful())
	return c
}

func doubtful() farm.CountyYield {
	y := invented.CornYield(farm.YieldOutlook{SD: invented.Number(0.001)})
	y.History = map[crop.CropYear]crop.Yield{}
	for at := 2015; at <= 2024; at++ {
		y.History[at] = 170
	}
	return y
}

// At a payment yield of 284 PLC pays 53.11: more than ARC-CO at the benchmark, by 1.05, and
// at no other mean. At 150 it pays 28.05, and ARC-CO leads by 24.01 at least.
func TestLeadInItsBand(t *testing.T) {
	p := only(t, inDoubt(284))
	d := p.Difference.Decides
	if d == nil || p.Leader != answer.Close || p.Leans != answer.LeadsARCCO || d.Leader != answer.LeadsPLC || d.Price != nil || math.Abs(float64(d.Difference)+1.05) > 0.01 {
		t.Fatalf("%s, %+v, decides %+v", p.Leader, p.Difference, d)
	}
	if d.Yield == nil || math.Abs(float64(*d.Yield.Mean)-187.30) > 0.005 || !strings.HasPrefix(p.LeaderReason, "PLC leads if the county yield is taken from its benchmark yield (187.3) instead of 17") {
		t.Errorf("%+v: %s", d.Yield, p.LeaderReason)
	}
	if p.Difference.Lowest != d.Difference || p.Difference.UsualError != 0 || p.Difference.YieldMeans != 1+len(p.Bases[0].CountyYield.OtherMeans) || p.Difference.YieldMeans < 3 {
		t.Errorf("band %+v of %+v", p.Difference, p.Bases[0].CountyYield.OtherMeans)
	}
	p = only(t, inDoubt(150))
	if p.Leader != answer.LeadsARCCO || p.Difference.Decides != nil || math.Abs(float64(p.Difference.Lowest)-24.01) > 0.01 {
		t.Errorf("%s because %q, %+v", p.Leader, p.LeaderReason, p.Difference)
	}
}

// Where two counties stand behind a base their yields move together, and the sentence has
// no figure of one.
func TestBandOfTwoCounties(t *testing.T) {
	c := inDoubt(284)
	c.Counties = invented.BookOf(farm.County{Code: "99001", Yields: []farm.CountyYield{doubtful()}}, farm.County{Code: "99003", Yields: []farm.CountyYield{doubtful()}})
	other := c.Operation.Farms[0].Bases[0]
	other.Tract, other.County = "2", "99003"
	c.Operation.Farms[0].Bases = append(c.Operation.Farms[0].Bases, other)
	if p := only(t, c); p.LeaderReason != "PLC leads if the county yield is taken from its benchmark yield" {
		t.Errorf("%s because %q, %+v", p.Leader, p.LeaderReason, p.Difference)
	}
}

// A told mean of the county yield leaves the price: 3.65 at 5 percent goes to 3.65 x
// exp(0.05) = 3.84, where ARC-CO leads.
func TestPriceDecides(t *testing.T) {
	p := only(t, priced(3.65, 0.05, 150, 188))
	if want := "ARC-CO leads if the national price ends one usual error higher (3.84)"; p.LeaderReason != want || p.Difference.YieldMeans != 0 || p.Difference.UsualError != 0.05 {
		t.Errorf("%q, want %q; %+v", p.LeaderReason, want, p.Difference)
	}
}

// A price and a yield that are known have no band.
func TestNoBandOfWhatIsKnown(t *testing.T) {
	c := cases.Corn()
	delete(c.Market.Outlook[crop.Corn], 2026)
	c.Market.MYA[crop.Corn][2026] = farm.Figure{Value: 4.10, Status: crop.Agency}
	yield := invented.CornYield(farm.YieldOutlook{})
	yield.Actual = map[crop.CropYear]crop.Yield{2026: 175}
	c.Counties = invented.Book(yield)
	if d := only(t, c).Difference; d.Moves() || math.Abs(float64(d.Highest-d.Lowest)) > 1e-9 || d.Decides != nil {
		t.Errorf("%+v", d)
	}
}
