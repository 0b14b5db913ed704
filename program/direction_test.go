package program

import (
	"testing"

	"pgregory.net/rapid"
)

// coverageGen draws a PLC contract and an ARC-CO coverage of any plausible size.
func coverageGen(t *rapid.T) (PLC, ARCCO) {
	cents := rapid.IntRange(1, 2000)
	loan := float64(cents.Draw(t, "loan")) / 100
	plc := PLC{TargetPrice: loan + float64(cents.Draw(t, "over loan"))/100, LoanRate: loan, Decimals: 2}
	coverage := NewARCCO(float64(rapid.IntRange(100, 30000).Draw(t, "yield"))/100, plc.TargetPrice, 0.90, 0.12)
	return plc, coverage
}

// A higher price never raises a PLC payment, nor an ARC-CO payment at a fixed
// yield.
func TestHigherPriceNeverPaysMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plc, coverage := coverageGen(t)
		low := float64(rapid.IntRange(1, 3000).Draw(t, "price")) / 100
		high := low + float64(rapid.IntRange(0, 500).Draw(t, "rise"))/100
		if plc.Rate(high) > plc.Rate(low) {
			t.Fatalf("PLC pays %v at %v and %v at %v", plc.Rate(low), low, plc.Rate(high), high)
		}
		yield := float64(rapid.IntRange(0, 30000).Draw(t, "county yield")) / 100
		at := func(mya float64) float64 {
			return coverage.Rate(ActualRevenue(yield, ActualPrice(mya, plc.LoanRate)))
		}
		if at(high) > at(low) {
			t.Fatalf("ARC-CO pays %v at %v and %v at %v", at(low), low, at(high), high)
		}
	})
}

// No rate is negative or above its maximum.
func TestRatesStayWithinTheirMaximum(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plc, coverage := coverageGen(t)
		price := float64(rapid.IntRange(0, 4000).Draw(t, "price")) / 100
		if r := plc.Rate(price); r < 0 || r > plc.MaximumRate() {
			t.Fatalf("PLC rate %v, maximum %v", r, plc.MaximumRate())
		}
		revenue := float64(rapid.IntRange(0, 500000).Draw(t, "revenue")) / 100
		if r := coverage.Rate(revenue); r < 0 || r > coverage.Maximum {
			t.Fatalf("ARC-CO rate %v, maximum %v", r, coverage.Maximum)
		}
	})
}

// An irrigated share of 0 or 1 is the single practice, to the cent.
func TestIrrigatedShareOfNoneOrAllIsOnePractice(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		_, irrigated := coverageGen(t)
		_, nonirrigated := coverageGen(t)
		if got := Weighted(1, irrigated, nonirrigated); got != irrigated {
			t.Fatalf("all irrigated: %+v, want %+v", got, irrigated)
		}
		if got := Weighted(0, irrigated, nonirrigated); got != nonirrigated {
			t.Fatalf("none irrigated: %+v, want %+v", got, nonirrigated)
		}
	})
}

// The reference price of 2031 is one step of half a percent on the list price,
// and 25 steps reach the limit of 113 percent (P.L. 119-21 sec. 10301(b)).
func TestSteppedReferencePrice(t *testing.T) {
	const list, step, limit = 4.10, 1.005, 1.13
	if got, want := steppedReferencePrice(list, step, limit, 1), 4.1205; got != want {
		t.Errorf("one step: %v, want %v", got, want)
	}
	if got, want := steppedReferencePrice(list, step, limit, 25), 4.633; got != want {
		t.Errorf("25 steps: %v, want the limit %v", got, want)
	}
	if terms, err := TermsFor("corn", 2031); err != nil || terms.ReferencePrice != 4.1205 {
		t.Errorf("corn 2031: %v, %v", terms.ReferencePrice, err)
	}
	if terms, err := TermsFor("corn", 2030); err != nil || terms.ReferencePrice != 4.10 {
		t.Errorf("corn 2030: %v, %v", terms.ReferencePrice, err)
	}
}

// No program ever pays a negative amount, or more than its maximum.
func TestPaymentsAreNeverNegative(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		figure := func(name string, most float64) float64 { return rapid.Float64Range(0, most).Draw(t, name) }
		acres := PaymentAcres(figure("base", 5000), rapid.SampledFrom([]float64{0.85, 0.65}).Draw(t, "share"))
		acres = CutPaymentAcres(acres, acres, 2*acres+1, ExcessFruitVegetables(figure("vegetables", 5000), 2*acres+1, 0.15))
		plc := PLC{figure("target", 20), figure("loan", 10), 2}
		arc := NewARCCO(figure("benchmark yield", 300), figure("benchmark price", 20), 0.90, 0.12)
		individual, _ := NewARCIC([]IndividualCrop{{1, figure("planted", 500), figure("prevented", 500), figure("own benchmark", 2000)}}, 0.90, 0.12)
		mya, yield := figure("mya", 20), figure("yield", 300)
		for name, one := range map[string][2]float64{
			"PLC":    {PLCPayment(plc.Rate(mya), yield, acres), PLCPayment(plc.MaximumRate(), yield, acres)},
			"ARC-CO": {ARCCOPayment(arc.Rate(ActualRevenue(yield, mya)), acres), ARCCOPayment(arc.Maximum, acres)},
			"ARC-IC": {ARCICPayment(individual.Rate(yield*mya), acres), ARCICPayment(individual.Maximum, acres)},
		} {
			if one[0] < 0 || one[0] > one[1] {
				t.Fatalf("%s pays %v, at most %v", name, one[0], one[1])
			}
		}
	})
}
