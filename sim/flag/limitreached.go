package flag

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/law"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
)

// OfLimit returns the flag of a payment limit that is reached; false where the law has no
// limit for the crop year.
func OfLimit(l limits.LimitReached, people limits.Rules) (answer.Flag, bool) {
	row, err := law.Find("payment_limit", "", people.CropYear)
	if err != nil {
		return answer.Flag{}, false
	}
	message := fmt.Sprintf("%s reaches the payment limit of %s in %s of 100 outcomes. On average the limit holds back %s, after sequestration.", l.Recipient, marked(PlainDollars(l.Limit), l.Status), inHundred(l.Chance), PlainDollars(l.Withheld))
	for _, a := range l.BasesAtLimit {
		message += fmt.Sprintf(" The %s base of farm %s under %s reaches it alone in %s of 100. The choices for all other bases under this limit change what %s is paid by at most %s on average.", a.Election.Commodity.Name(), a.Election.Farm, a.Election.Program, inHundred(a.Chance), l.Recipient, PlainDollars(a.OthersAtMost))
	}
	used := "after sequestration"
	if people.Rule.Reduced == 0 {
		used = "before sequestration"
	}
	message += " Payments from farms outside this file count too (limit_used, in dollars " + used + "). Ask the county office about shares and entities before signing, not after."
	return answer.Flag{Code: "limit_reached", Severity: answer.Warning, Message: message, Source: row.Citation()}, true
}

// inHundred writes a chance as outcomes in 100: "fewer than 1", "over 99", never 0
// or 100 for what is not certain.
func inHundred(chance float64) string {
	switch n := program.Round(100*chance, 0); {
	case n == 0:
		return "fewer than 1"
	case n == 100 && chance < 1:
		return "over 99"
	default:
		return fmt.Sprintf("%.0f", n)
	}
}
