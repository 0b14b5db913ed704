package odds

import (
	"fmt"
)

// What counts as little, close and often: judgements of this program, printed in
// docs/method.md. Sentences about them are made from them.
const (
	LeadMove    = 0.05 // of the mean price or county yield: the move that a lead must survive
	LittlePays  = 0.10 // pays in fewer outcomes than this: little at stake
	LimitCounts = 0.01 // the share of outcomes from which on reaching a limit is told
)

// Worst are the shares of outcomes, the worst ones, whose average is given.
var Worst = [...]float64{0.10, 0.20}

// Percent writes a share of one, "5 percent".
func Percent(share float64) string { return fmt.Sprintf("%.0f percent", 100*share) }
