package compare_test

import (
	"math"
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// A county sheet shows what compare says of a farm of that county and payment yield.
func TestHandoutAgreesWithCompare(t *testing.T) {
	c := cases.Corn()
	c.Operation = farm.Operation{}
	h, err := explain.MakeHandout(c, []string{"99001"}, nil, func(int) {})
	if err != nil || len(h.Sheets) != 1 {
		t.Fatalf("%d sheets, %v", len(h.Sheets), err)
	}
	sheet := h.Sheets[0]
	if sheet.PaymentYield != 150 { // 80 percent of 187.30
		t.Errorf("payment yield %v, want 150", sheet.PaymentYield)
	}
	part := only(t, cases.Corn()) // the same county at a payment yield of 150
	const noise = 1e-9            // 120 base acres against 100
	near := func(a, b answer.Dollars) bool { return math.Abs(float64(a-b)) < noise }
	a, b := *part.Difference, *sheet.Part.Difference
	if !near(a.Mean, b.Mean) || !near(a.Lowest, b.Lowest) || !near(a.Highest, b.Highest) || *part.ChanceNeitherPays != *sheet.Part.ChanceNeitherPays || part.Programs.Of(farm.PLC).Percentiles != sheet.Part.Programs.Of(farm.PLC).Percentiles {
		t.Errorf("the sheet says %+v, compare %+v", b, a)
	}
}

// At the even PLC yield both programs average the same.
func TestEvenPaymentYieldIsEven(t *testing.T) {
	c := cases.Corn()
	even := crop.Yield(*only(t, c).EvenPaymentYield)
	c.Operation.Farms[0].Bases[0].PaymentYield = &even
	if d := float64(only(t, c).Difference.Mean); math.Abs(d) > 0.01 {
		t.Errorf("at %.1f bu/acre the averages are %.3f apart", even, d)
	}
}

// Irrigated and nonirrigated land have a sheet each; what has no price is named.
func TestHandoutSheets(t *testing.T) {
	c := cases.Corn()
	irrigated, dry := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(210)}), invented.CornYield(farm.YieldOutlook{Yield: invented.Number(120)})
	irrigated.Practice, dry.Practice = farm.Irrigated, farm.Nonirrigated
	oats := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(70)})
	oats.Commodity = crop.Oats
	c.Counties = invented.Book(irrigated, dry, oats)
	h, err := explain.MakeHandout(c, []string{"99001"}, nil, func(int) {})
	if err != nil || len(h.Sheets) != 2 || len(h.Missing) != 1 {
		t.Fatalf("%d sheets, missing %v, %v", len(h.Sheets), h.Missing, err)
	}
	for i, practice := range []farm.Practice{farm.Irrigated, farm.Nonirrigated} {
		s := h.Sheets[i]
		if s.Practice != practice || s.Part.Difference == nil || len(s.Dates) == 0 {
			t.Errorf("sheet %d: %v, %v", i, s.Practice, s.Part.LeaderReason)
		}
	}
	if h.Sheets[0].Part.Programs.Of(farm.ARCCO).Mean == h.Sheets[1].Part.Programs.Of(farm.ARCCO).Mean {
		t.Error("both practices average the same")
	}
	only, err := explain.MakeHandout(c, []string{"99001"}, []crop.Commodity{crop.Oats}, func(int) {})
	if err != nil || len(only.Sheets) != 0 || !slices.Contains(only.Missing, h.Missing[0]) {
		t.Errorf("oats alone: %d sheets, missing %v, %v", len(only.Sheets), only.Missing, err)
	}
}
