package compare

import (
	"testing"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/invented/cases"
)

// Crop year 2026 is paid from 1 October 2027, the first one after the end of its
// marketing year: wheat's ends on 31 May 2027, corn's on 31 August, temperate
// japonica's on 30 September.
func TestFirstPaymentDay(t *testing.T) {
	for _, c := range []crop.Commodity{crop.Wheat, crop.Corn, crop.TemperateJaponicaRice} {
		if day, ok := FirstPaymentDay(c, 2026); !ok || day.Format(time.DateOnly) != "2027-10-01" {
			t.Errorf("%s: %v, want 2027-10-01", c, day)
		}
	}
	got, err := Answer(cases.Corn())
	if err != nil {
		t.Fatal(err)
	}
	if p := got.CropYears[0].Farms[0].Commodities[0]; p.PaymentNotBefore != "2027-10-01" || p.TaxYear != 2027 {
		t.Errorf("not before %s, tax year %d; want 2027-10-01, 2027", p.PaymentNotBefore, p.TaxYear)
	}
}
