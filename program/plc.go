package program

import (
	"fencerow/program/crop"
)

// Steps of PLC. Price and loan rate are those of ARC-CO and ARC-IC too.
var (
	StepPrice          = Step{"mya_price", "national price of the crop year", perUnit, ""}
	StepLoanRate       = Step{"loan_rate", "loan rate", perUnit, ""}
	StepEffectivePrice = Step{"effective_price", "higher of price and loan rate", perUnit, "7 U.S.C. 9016(b)"}
	StepPLCRate        = Step{"payment_rate", "PLC rate: effective reference price minus that, not below 0", perUnit, "7 U.S.C. 9016(a),(c)"}
	StepPLCMaximum     = Step{"maximum_rate", "highest PLC rate, at the loan rate and below", perUnit, "7 U.S.C. 9016(a),(c)"}
	StepPaymentYield   = Step{"payment_yield", "PLC yield", unitsPerAcre, "7 U.S.C. 9013"}
	StepPLCPayment     = Step{"payment", "PLC payment: rate x PLC yield x payment acres", "USD", "7 U.S.C. 9016(d)"}
)

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
// Source: 7 U.S.C. 9016(d); payment yields 7 U.S.C. 9013. Example: testdata/published/agweb-2016-plc-wheat.json.
func PLCPayment(rate crop.Price, paymentYield crop.Yield, paymentAcres crop.Acres) crop.Money {
	return Cent(rate * paymentYield * paymentAcres)
}
