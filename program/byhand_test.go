package program

import (
	"errors"
	"math"
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/program/law"
)

// A payment is made from October 1 after the end of the marketing year (7 U.S.C. 9016(e)): corn of 2026 ends on August 31, 2027;
// what ends on October 1 or later waits for the next October.
func TestFirstPaymentDay(t *testing.T) {
	for end, want := range map[string]string{"2027-08-31": "2027-10-01", "2027-09-30": "2027-10-01", "2027-10-01": "2028-10-01", "2027-12-31": "2028-10-01"} {
		day, err := time.Parse(time.DateOnly, end)
		if err != nil {
			t.Fatal(err)
		}
		if got := FirstPaymentDay(day, time.October).Format(time.DateOnly); got != want {
			t.Errorf("a marketing year that ends on %s is paid from %s, by hand %s", end, got, want)
		}
	}
}

// The benchmark of 2026 is of the crop years 2020 to 2024 (7 U.S.C. 9017(c)(2)), oldest first; to 2018 that of 2016 was 2011 to 2015.
func TestBenchmarkYearsByHand(t *testing.T) {
	for y, want := range map[crop.CropYear][5]crop.CropYear{2026: {2020, 2021, 2022, 2023, 2024}, 2016: {2011, 2012, 2013, 2014, 2015}} {
		terms, err := TermsFor(crop.Corn, y)
		if err != nil {
			t.Fatal(err)
		}
		if got := terms.BenchmarkYears(); got != want {
			t.Errorf("%d: %v, want %v", y, got, want)
		}
		if got := terms.Status("reference_price"); got != crop.Law {
			t.Errorf("%d: the reference price is %s", y, got)
		}
	}
	// The yearly step of 2031 has no rounding rule that was found: the doubt goes over to what is made of it.
	terms, err := TermsFor(crop.Corn, 2031)
	if err != nil || terms.Status("reference_price", "reference_price_step") != crop.Unverified {
		t.Errorf("2031: %s, %v", terms.Status("reference_price", "reference_price_step"), err)
	}
}

// The weights of ARC-IC are planted acres times the share (7 U.S.C. 9017(b)(2)): 30 of 40 and 20 of 40 with shares of 1 and 0.5 are 30 and 10, so
// that 800.00 and 400.00 make 700.00. Where nothing is planted, prevented acres weigh: 10 and 30 x 0.5 are 10 and 15, 560.00; then the most is paid. Without either there is no coverage.
func TestWeightsOfARCIC(t *testing.T) {
	crops := func(planted, prevented [2]float64) []IndividualCrop {
		return []IndividualCrop{{Share: 1, PlantedAcres: planted[0], PreventedAcres: prevented[0], BenchmarkRevenue: 800}, {Share: 0.5, PlantedAcres: planted[1], PreventedAcres: prevented[1], BenchmarkRevenue: 400}}
	}
	planted, ok := NewARCIC(crops([2]float64{30, 20}, [2]float64{5, 99}), 0.90, 0.12)
	if !ok || planted.AllPrevented || planted.Guarantee != 630 || planted.Maximum != 84 {
		t.Errorf("planted: %+v, %v; by hand a guarantee of 630.00, at most 84.00", planted, ok)
	}
	if got := planted.Rate(600); got != 30 {
		t.Errorf("at a revenue of 600.00 it pays %v", got)
	}
	prevented, ok := NewARCIC(crops([2]float64{}, [2]float64{10, 30}), 0.90, 0.12)
	if !ok || !prevented.AllPrevented || prevented.Guarantee != 504 || prevented.Rate(9999) != 67.20 {
		t.Errorf("prevented: %+v, %v; by hand a guarantee of 504.00, and 67.20 is paid", prevented, ok)
	}
	if none, ok := NewARCIC(crops([2]float64{}, [2]float64{}), 0.90, 0.12); ok {
		t.Errorf("nothing planted or prevented: %+v", none)
	}
	// 30 and 10 of 40: 200 x 4.00 and 50 x 10.00 make 600.00 + 125.00 = 725.00; where nothing is planted, no revenue.
	if got := IndividualRevenue(crops([2]float64{30, 20}, [2]float64{}), []float64{200, 50}, []float64{4, 10}); got != 725 {
		t.Errorf("revenue %v", got)
	}
	if got := IndividualRevenue(crops([2]float64{}, [2]float64{1, 1}), []float64{200, 50}, []float64{4, 10}); got != 0 {
		t.Errorf("revenue of nothing planted %v", got)
	}
}

// SCO of 2026 begins at 86 percent: a policy at 86 percent or more would leave it nothing.
func TestLayerAboveThePolicy(t *testing.T) {
	terms, err := AreaTermsFor(farm.SCO, farm.RevenueProtection, crop.Corn, 2026)
	if err != nil {
		t.Fatal(err)
	}
	for level, want := range map[float64]string{0.85: "", 0.86: "a coverage level of 86 percent leaves nothing below the trigger of 86 percent", 0.90: "a coverage level of 90 percent leaves nothing"} {
		if _, why := terms.Band(farm.Layer{Program: farm.SCO}, level); (why == "") != (want == "") || !strings.Contains(why, want) {
			t.Errorf("a policy at %v: %q, want %q", level, why, want)
		}
	}
}

// So many insured units at a rate each are paid to the cent: 100.5 x 12.34 is 1,240.17.
func TestAreaIndemnityByHand(t *testing.T) {
	if got := AreaIndemnity(12.34, 100.5); got != 1240.17 {
		t.Errorf("%v", got)
	}
}

// Half an acre of covered crops and 15 percent of 100 acres of others, less than the 20 planted, make 15.50 (P.L. 119-21, sec. 10302): a hundredth
// more than a base of 15.49, and no more than one of 15.50. Without covered plantings there is no claim.
func TestNewBaseByHand(t *testing.T) {
	for existing, want := range map[float64]float64{15.49: 0.01, 15.50: 0, 15.51: 0, 0: 15.50} {
		n := NewBase{CoveredMean: 0.5, NoncoveredMean: 20, NoncoveredShare: 0.15, TotalAcres: 100, ExistingBase: existing}
		if got := n.Added(); math.Abs(got-want) > 1e-9 || n.Eligible() != (want > 0) {
			t.Errorf("beside a base of %v: %v acres, eligible %v; by hand %v", existing, got, n.Eligible(), want)
		}
		if n.CoveredMean = 0; n.Eligible() || n.Added() != 0 {
			t.Errorf("without covered plantings %v acres", n.Added())
		}
	}
	// The farm has 12 acres in all: no more than 2 beside a base of 10.
	if got := (NewBase{CoveredMean: 15, TotalAcres: 12, ExistingBase: 10, NoncoveredShare: 0.15}).Added(); got != 2 {
		t.Errorf("within 12 acres: %v", got)
	}
}

// A price in a unit that does not convert is refused by name, the first of several; a row that is missing goes before.
func TestPricesThatDoNotConvert(t *testing.T) {
	read := func(first string, ids ...string) error {
		r := rowReader{terms: &Terms{Commodity: crop.Corn, CropYear: 2026, Rows: map[string]law.Figure{}}}
		r.row(first)
		for _, id := range ids {
			r.price(id)
		}
		return r.err
	}
	want := "program: payment_limit of  is in USD, which does not convert to USD/bu"
	if err := read("reference_price", "loan_rate", "payment_limit", "guarantee_share"); err == nil || err.Error() != want {
		t.Errorf("%v, want %q", err, want)
	}
	if err := read("no_such_row", "payment_limit"); !errors.Is(err, law.ErrNoValue) {
		t.Errorf("%v, want that there is no such row", err)
	}
	if err := read("reference_price", "loan_rate"); err != nil {
		t.Error(err)
	}
}
