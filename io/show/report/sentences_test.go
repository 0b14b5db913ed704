package report

import (
	"testing"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// share is a chance of a test case.
func share(x float64) *answer.Chance { c := answer.Chance(x); return &c }

// outcome is a commodity with its four chances: neither, ARC-CO more, PLC more,
// equal.
func outcome(neither, arc, plc, equal float64) answer.CommodityPart {
	return answer.CommodityPart{
		ChanceNeitherPays: share(neither), ChanceARCCOMore: share(arc), ChancePLCMore: share(plc), ChanceEqual: share(equal),
		Difference: &answer.Difference{},
	}
}

// The sentence gives all outcomes, whole numbers that add to 100, never 0 for
// what can happen.
func TestOutcomes(t *testing.T) {
	for _, c := range []struct {
		part answer.CommodityPart
		want string
	}{
		{outcome(0.73, 0.23, 0.04, 0), "ARC-CO pays more in 23 of 100 outcomes, PLC in 4, and neither pays in 73."},
		{outcome(0.3333, 0.3333, 0.3334, 0), "PLC pays more in 34 of 100 outcomes, ARC-CO in 33, and neither pays in 33."},
		{outcome(0.996, 0.002, 0.002, 0), "ARC-CO pays more in fewer than 1 of 100 outcomes, PLC in fewer than 1, and neither pays in 100."},
		{outcome(0.5, 0.2, 0.2, 0.1), "ARC-CO pays more in 20 of 100 outcomes, PLC in 20, both the same in 10, and neither pays in 50."},
		{answer.CommodityPart{}, ""},
	} {
		if got := outcomes(c.part); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// The sentences of a clear, a close and a little-chance base.
func TestVerdict(t *testing.T) {
	clear := outcome(0.2, 0.7, 0.1, 0)
	clear.Leader, clear.Leans = answer.LeadsARCCO, answer.LeadsARCCO
	clear.Difference = &answer.Difference{Mean: 24.13, Lowest: 8.88, Highest: 44.23, UsualError: 0.07, YieldMeans: 4}
	toss := outcome(0.2, 0.4, 0.4, 0)
	toss.Leader, toss.Leans, toss.LeaderReason = answer.Close, answer.LeadsPLC, "the averages are less than $2.00 per base acre apart"
	toss.Difference = &answer.Difference{Mean: -1.04, Lowest: -6.83, Highest: 10.15, UsualError: 0.07}
	little := outcome(0.95, 0.05, 0, 0)
	little.Leader, little.Leans, little.LeaderReason = answer.LittleChance, answer.LeadsARCCO, "fewer than 10 outcomes in 100 pay under either program"
	little.Difference = &answer.Difference{Mean: 0.4, Lowest: 0.1, Highest: 1.2}
	none := answer.CommodityPart{Leader: answer.None, LeaderReason: "missing: the payment yield"}
	for _, c := range []struct {
		part answer.CommodityPart
		want string
	}{
		{clear, "Leans ARC-CO. Averaged over all 100, zeros included, ARC-CO is $24 a base acre ahead. With the price 7 percent off and 4 ways to estimate the county yield, that lead runs from $9 to $44."},
		{toss, "A toss-up: the averages are less than $2.00 per base acre apart. Averaged over all 100, zeros included, PLC is $1.04 a base acre ahead. If the price ends 7 percent higher or lower, that lead runs from $7 for PLC to $10 for ARC-CO."},
		{little, "Little at stake: fewer than 10 outcomes in 100 pay under either program. Averaged over all 100, zeros included, ARC-CO is $0.40 a base acre ahead."},
		{none, "No lead can be given. Missing: the payment yield."},
	} {
		if got := verdict(c.part); got != c.want {
			t.Errorf("got  %s\nwant %s", got, c.want)
		}
	}
}

// Pound prices show the trade's unit in brackets, bushel prices do not.
func TestPriceInTheTradesUnit(t *testing.T) {
	for _, c := range []struct {
		commodity string
		value     float64
		decimals  int
		want      string
	}{
		{"corn", 4.80, 2, "4.80"},
		{"long_grain_rice", 0.1350, 4, "0.1350 (13.50 cwt)"},
		{"peanuts", 0.2675, 4, "0.2675 (535.00 ton)"},
		{"seed_cotton", 0.42, 4, "0.4200"},
	} {
		p := answer.Price{Value: c.value, Decimals: c.decimals}
		if got := wording.Price(crop.Commodity(c.commodity), &p); got != c.want {
			t.Errorf("%s: got %s, want %s", c.commodity, got, c.want)
		}
	}
}
