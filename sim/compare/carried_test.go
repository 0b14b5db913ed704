package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/position"
)

// Crop year 2027 looks back at 2021 to 2025. The price of 2025 is carried: 0.2121;
// the mean of 0.298, 0.243 and 0.2121 without the highest and the lowest is 0.2510
// and, floored at the reference price of 0.2375 each, (0.298 + 0.243 + 0.2375)/3 =
// 0.2595 is the benchmark price. Both are marked as assumed and differ by scenario.
func TestMissingFinalPriceIsCarried(t *testing.T) {
	c := cases.Canola(position.WithEveryPrice(invented.CanolaMarket()))
	c.CropYears = []crop.CropYear{2027}
	part := only(t, c)
	if part.BenchmarkPrice == nil || math.Abs(part.BenchmarkPrice.Value-0.2595) > 1e-9 || part.BenchmarkPriceStatus != crop.Assumed {
		t.Fatalf("benchmark price %+v, %s", part.BenchmarkPrice, part.BenchmarkPriceStatus)
	}
	if part.BenchmarkPriceDrawn == nil || part.BenchmarkPriceDrawn.SD.Value == 0 {
		t.Errorf("the price of 2025 is not final, yet the benchmark price is the same in all outcomes: %+v", part.BenchmarkPriceDrawn)
	}
	if part.MYA == nil || part.MYA.Status != crop.Assumed || part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.ARCCO) == nil {
		t.Errorf("price %+v, programs %+v", part.MYA, part.Programs)
	}
}

// What one program lacks does not silence the other.
func TestEachProgramByItself(t *testing.T) {
	withoutCounty := cases.Canola(position.WithEveryPrice(invented.CanolaMarket()))
	withoutCounty.Counties = nil
	if part := only(t, withoutCounty); part.Programs.Of(farm.PLC) == nil || part.Programs.Of(farm.PLC).ChanceOfPayment == 0 || part.Programs.Of(farm.ARCCO) != nil {
		t.Errorf("without a county yield: %+v", part.Programs)
	}
	withoutYield := cases.Canola(position.WithEveryPrice(invented.CanolaMarket()))
	withoutYield.Operation.Farms[0].Bases[0].PaymentYield = nil
	if part := only(t, withoutYield); part.Programs.Of(farm.PLC) != nil || part.Programs.Of(farm.ARCCO) == nil || part.Programs.Of(farm.ARCCO).ChanceOfPayment == 0 {
		t.Errorf("without a payment yield: %+v", part.Programs)
	}
}

// With a market file's price in place of the carried one, at the same SD, the
// odds are the same: what the flag offers changes nothing until it is changed.
func TestStatedPriceInPlaceOfTheCarriedOne(t *testing.T) {
	carried := cases.Canola(position.WithEveryPrice(invented.CanolaMarket()))
	m := invented.CanolaMarket()
	m.Outlook[crop.Canola] = map[crop.CropYear]farm.PriceOutlook{}
	o := carried.Market.Outlook[crop.Canola][2026]
	invented.Project(m, crop.Canola, 2026, o.Value, o.Carried.Error)
	a, b := only(t, carried), only(t, cases.Canola(position.WithEveryPrice(m)))
	if a.Programs.Of(farm.PLC).Mean != b.Programs.Of(farm.PLC).Mean || a.Programs.Of(farm.ARCCO).Mean != b.Programs.Of(farm.ARCCO).Mean {
		t.Errorf("carried %+v %+v, told %+v %+v", a.Programs.Of(farm.PLC), a.Programs.Of(farm.ARCCO), b.Programs.Of(farm.PLC), b.Programs.Of(farm.ARCCO))
	}
	if !strings.Contains(a.MYA.SDFrom, "2010-2024") {
		t.Errorf("the spread says %q", a.MYA.SDFrom)
	}
}
