package odds

import (
	"fmt"
)

// What counts as little, close and often: judgements of this program, printed in
// docs/method.md. Sentences about them are made from them.
const (
	LittlePays  = 0.10 // share of scenarios: a program that pays in fewer is little at stake
	LimitCounts = 0.01 // share of scenarios in which a limit is reached, from which on that is shown
)

// NewsBins is how many bins of equal counts the price of the year before is cut into where
// the choice follows it, likewise a judgement: choices are made on one half of the
// scenarios and valued on the other (ChoosingAgain).
const NewsBins = 16

// Worst are the shares of scenarios, the lowest ones, whose average is shown.
var Worst = [...]float64{0.10, 0.20}

// Percent writes a share of one as "5 percent".
func Percent(share float64) string { return fmt.Sprintf("%.0f percent", 100*share) }
