package payoff

import (
	"fencerow/sim/odds"
)

// Sensitivity moves the mean price and the mean county yields in proportion.
type Sensitivity struct{ Price, Yield float64 }

// Sensitivities are the means as drawn, then each moved either way.
var Sensitivities = [...]Sensitivity{{1, 1}, {1 - odds.LeadMove, 1}, {1 + odds.LeadMove, 1}, {1, 1 - odds.LeadMove}, {1, 1 + odds.LeadMove}}

// movedDraws is the number of scenarios, from the first on, that moved means are worked
// out on: what an average changes by is far surer than the average itself.
const movedDraws = 1 << 14
