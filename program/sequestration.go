package program

import (
	"fencerow/program/crop"
)

// Steps of sequestration. The law's row order_of_reductions says whether it comes before or
// after the payment limit; the share withheld is a row too.
var (
	StepSequestration      = Step{"sequestration", "share withheld by sequestration", "1", ""}
	StepAfterSequestration = Step{"after_sequestration", "earned, minus sequestration", "USD", ""}
	StepPaid               = Step{"paid", "paid after limit and sequestration", "USD", ""}
)

// AfterSequestration returns a payment (USD) less the share withheld (0 to 1), rounded to
// the cent. From crop year 2019 the law applies it before the payment limit, until 2018
// after it; LimitRule.Reduced lets it be the last step of the arithmetic in both.
//
// Source: 7 U.S.C. 1308(f)(9).
func AfterSequestration(payment crop.Money, share crop.Share) crop.Money {
	return Cent(payment * (1 - share))
}
