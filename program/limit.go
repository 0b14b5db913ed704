package program

import "fencerow/program/crop"

// AfterLimit returns what a person is paid of payment (USD) under a payment
// limit of which used is already taken elsewhere. It is applied to each outcome,
// never to an average.
//
// Source: 7 U.S.C. 1308(b).
func AfterLimit(payment, limit, used crop.Money) crop.Money {
	return min(payment, max(0, limit-used))
}
