package program_test

import (
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
)

// 24.33 USD/cwt raised by 0.5 percent in 2031 is 0.2445165 USD/lb; 4.10 USD/bu raised is
// 4.1205. Source: P.L. 119-21 sec. 10304(4), multiplied by hand.
func TestReferencePriceIsShownInFull(t *testing.T) {
	for _, c := range []struct {
		commodity crop.Commodity
		y         crop.CropYear
		want      int
	}{{crop.TemperateJaponicaRice, 2031, 7}, {crop.TemperateJaponicaRice, 2026, 4}, {crop.Corn, 2031, 4}, {crop.Corn, 2026, 2}} {
		terms, err := program.TermsFor(c.commodity, c.y)
		if err != nil {
			t.Fatal(err)
		}
		if got := terms.ReferenceDecimals(); got != c.want {
			t.Errorf("%s of %d, %v: %d decimals, want %d", c.commodity, c.y, terms.ReferencePrice, got, c.want)
		}
	}
	// A price without an end, a third, is shown with eight.
	if got := (program.Terms{ReferencePrice: 1.0 / 3, PriceDecimals: 2}).ReferenceDecimals(); got != 8 {
		t.Errorf("a third: %d decimals", got)
	}
}
