package program

import "fencerow/program/crop"

// PLC is one commodity's Price Loss Coverage contract: one farm, one crop year.
type PLC struct {
	TargetPrice crop.Price // reference price to 2018, effective reference price from 2019, USD/unit
	LoanRate    crop.Price // national loan rate, USD/unit
	Decimals    int        // of the payment rate as FSA prints it
}

// EffectivePrice returns the higher of the marketing-year average price mya and
// the loan rate, USD/unit.
//
// Source: 7 U.S.C. 9016(b).
func (c PLC) EffectivePrice(mya crop.Price) crop.Price { return max(mya, c.LoanRate) }

// Rate returns the payment rate in USD/unit at marketing-year average price mya.
//
//	rate = max(0, TargetPrice - EffectivePrice(mya))
//
// Source: 7 U.S.C. 9016(a),(c). Example: testdata/published/dtn-2017-plc-rates.json.
func (c PLC) Rate(mya crop.Price) crop.Price {
	return Round(max(0, c.TargetPrice-c.EffectivePrice(mya)), c.Decimals)
}

// MaximumRate returns the largest payment rate, USD/unit: the one at or below
// the loan rate.
func (c PLC) MaximumRate() crop.Price {
	return Round(max(0, c.TargetPrice-c.LoanRate), c.Decimals)
}

// PLCPayment returns the payment in USD, before share, limit and sequestration:
// rate (USD/unit) x payment yield (units/acre) x payment acres, to the cent.
// What is planted or harvested does not enter.
//
// Source: 7 U.S.C. 9016(d). Example: testdata/published/agweb-2016-plc-wheat.json.
func PLCPayment(rate crop.Price, paymentYield crop.Yield, paymentAcres crop.Acres) crop.Money {
	return Cent(rate * paymentYield * paymentAcres)
}
