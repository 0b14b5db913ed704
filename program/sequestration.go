package program

import (
	"fencerow/program/crop"
)

// Steps of sequestration. Which of paid and limit comes first says a row,
// order_of_reductions; the share withheld is one too.
var (
	StepSequestration      = Step{"sequestration", "share withheld by sequestration", "1", ""}
	StepAfterSequestration = Step{"after_sequestration", "earned, less sequestration", "USD", ""}
	StepPaid               = Step{"paid", "paid after limit and sequestration", "USD", ""}
)

// AfterSequestration returns payment (USD) less the share withheld, to the cent.
// From crop year 2019 it comes before the payment limit, until 2018 after it
// (sequestrationFirst); LimitRule.Reduced lets it be the last step in both.
//
// Source: 7 U.S.C. 1308(f)(9).
func AfterSequestration(payment crop.Money, share crop.Share) crop.Money {
	return Cent(payment * (1 - share))
}
