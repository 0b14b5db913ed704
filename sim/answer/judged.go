package answer

import (
	"fmt"

	"fencerow/sim/odds"
)

// AssumedPaymentYield is the payment yield of the PLC figures of a handout, as a share
// of the benchmark yield. Assumed: FSA's average PLC yields of 2014 and 2015 are 71
// percent (corn) to 87 percent (oats) of the benchmark yields of the same counties in
// 2023 (FSA, county base acres 2014-2023; ARC-CO county tables).
const AssumedPaymentYield = 0.80

// YieldAssumed is AssumedPaymentYield in words.
func YieldAssumed() string { return odds.Percent(AssumedPaymentYield) + " of the benchmark yield" }

// LittlePays is in how many outcomes little is at stake, in words.
func LittlePays() string {
	return fmt.Sprintf("fewer than %.0f outcomes in 100", 100*odds.LittlePays)
}

// LimitCounts is how often a limit must be reached to be reported, in words.
func LimitCounts() string { return fmt.Sprintf("more than %.0f of 100 outcomes", 100*odds.LimitCounts) }

// NewsRanges is into how much last year's price is cut where a choice follows it, in words.
func NewsRanges() string { return fmt.Sprintf("%d ranges of equal chance", odds.NewsBins) }

// WorstOutcomes are the shares of outcomes whose average is given, in words.
func WorstOutcomes() (all []string) {
	for _, share := range odds.Worst {
		all = append(all, fmt.Sprintf("worst %.0f in 100", 100*share))
	}
	return all
}
