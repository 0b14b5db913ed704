package program

import (
	"errors"
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/invented/sound"
)

// within draws a figure between two of any number: what people can write is checked in
// program/farm before it gets here.
func within(x, least, most float64) float64 {
	if math.IsNaN(x) || math.IsInf(x, 0) {
		return most
	}
	return least + math.Mod(math.Abs(x), most-least)
}

// Whatever the crop, year, prices, yields and acres, the law has no terms or pays a finite
// amount that is not negative, not more than its maximum, and not more where the price is higher.
func FuzzPayments(f *testing.F) {
	f.Add(uint8(0), uint16(2026), 4.20, 180.0, 150.0, 120.0, 0.5, 0.057)
	f.Add(uint8(9), uint16(2018), 0.20, 3000.0, 2900.0, 0.01, 0.0, 1.0)
	f.Add(uint8(200), uint16(2013), 0.0, 0.0, 0.0, 0.0, 1.0, 0.0)
	f.Fuzz(func(t *testing.T, which uint8, year uint16, price, countyYield, paymentYield, acres, share, withheld float64) {
		commodities := crop.Commodities()
		c, y := commodities[int(which)%len(commodities)], 2010+int(year)%25
		terms, err := TermsFor(c, y)
		if err != nil {
			return
		}
		price, countyYield, paymentYield = within(price, 0, 100), within(countyYield, 0, 20_000), within(paymentYield, 0, 20_000)
		acres, share, withheld = within(acres, 0, 1e6), within(share, 0, 1), within(withheld, 0, 1)
		mya := [5]crop.Price{price, price * share, price / 2, price, 2 * price}
		target := terms.TargetPrice(mya)
		plc, coverage := terms.PLC(target), terms.ARCCO(BenchmarkYield([5]crop.Yield{countyYield, paymentYield, countyYield, 1, 2}, terms.YieldDecimals), BenchmarkPrice(mya, target, terms.BenchmarkDecimals))
		coverage = Weighted(share, coverage, terms.ARCCO(paymentYield, target))
		rate, revenue := plc.Rate(price), coverage.Rate(ActualRevenue(countyYield, ActualPrice(price, terms.LoanRate)))
		paid := []crop.Money{
			AfterSequestration(PLCPayment(rate, paymentYield, PaymentAcres(acres, terms.PaymentAcreShare)), withheld),
			AfterSequestration(ARCCOPayment(revenue, PaymentAcres(acres, terms.PaymentAcreShare)), withheld),
		}
		if err := errors.Join(sound.Finite(terms), sound.Finite(plc), sound.Finite(coverage), sound.Finite(paid)); err != nil {
			t.Fatal(err)
		}
		if rate < 0 || rate > plc.MaximumRate() || revenue < 0 || revenue > coverage.Maximum || paid[0] < 0 || paid[1] < 0 {
			t.Errorf("%s of %d: rates %v of %v and %v of %v, paid %v", c, y, rate, plc.MaximumRate(), revenue, coverage.Maximum, paid)
		}
		if dearer := plc.Rate(price + 1); dearer > rate {
			t.Errorf("%s of %d: PLC pays %v at %v and %v at a dollar more", c, y, rate, price, dearer)
		}
	})
}
