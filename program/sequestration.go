package program

import "fencerow/program/crop"

// AfterSequestration returns payment (USD) less the share withheld, to the
// cent. The payment limit comes first.
//
// Source: order from "When does $115,875 equal $125,000?", CliftonLarsonAllen, 2015.
func AfterSequestration(payment crop.Money, share crop.Share) crop.Money {
	return Cent(payment * (1 - share))
}
