package report

import (
	"fmt"

	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// limitCost says what the payment limit costs the operation, how much more another
// mix of programs could average at most, and what one program for each crop would give up;
// "" where no limit is reached.
func limitCost(o answer.OperationPart) string {
	if o.CostOfLimit == nil || *o.CostOfLimit <= 0 {
		return ""
	}
	one := fmt.Sprintf("One program per crop on every farm (%s) gives up %s.", wording.Programs(o.Simplest.Choice), givenUp(*o.MeanAfterLimit-o.Simplest.MeanAfterLimit))
	return fmt.Sprintf("The payment limit costs %s on average, after sequestration. %s %s", wording.Whole(o.CostOfLimit), howGood(o), one)
}

// howGood says how much more another mix could average at most.
func howGood(o answer.OperationPart) string {
	individual := false
	for _, choice := range o.HighestMean {
		individual = individual || choice.Individual()
	}
	switch {
	case individual:
		return fmt.Sprintf("Without ARC-IC, no mix of programs averages more than %s.", wording.Whole(o.Bound))
	case o.Exact:
		return "No other mix of PLC and ARC-CO averages more."
	case *o.Gap < 1:
		return "No other mix of PLC and ARC-CO averages a dollar more."
	}
	return fmt.Sprintf("No other mix of PLC and ARC-CO averages over %s more (not every one was tried).", wording.Whole(o.Gap))
}

// givenUp writes what a simpler choice gives up.
func givenUp(d answer.Dollars) string {
	if d < 1 {
		return "less than a dollar"
	}
	return wording.Whole(&d)
}
