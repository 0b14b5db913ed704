package program

import "fencerow/program/crop"

// AfterSequestration returns payment (USD) less the share withheld, to the cent.
// From crop year 2019 it comes before the payment limit, until 2018 after it
// (sequestrationFirst); LimitRule.Reduced lets it be the last step in both.
//
// Source: 7 U.S.C. 1308(f)(9).
func AfterSequestration(payment crop.Money, share crop.Share) crop.Money {
	return Cent(payment * (1 - share))
}
