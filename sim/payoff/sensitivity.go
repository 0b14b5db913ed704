package payoff

import "fencerow/sim/odds"

// Sensitivity multiplies the mean price and the mean county yields; 1 leaves a mean as it
// is.
type Sensitivity struct{ Price, Yield float64 }

// Sensitivities are the means as they are, then each moved either way by odds.LeadMove: a
// leader must survive them.
var Sensitivities = [...]Sensitivity{{1, 1}, {1 - odds.LeadMove, 1}, {1 + odds.LeadMove, 1}, {1, 1 - odds.LeadMove}, {1, 1 + odds.LeadMove}}

// movedScenarios is the number of scenarios, from the first on, that moved means are worked
// out on: what an average changes by is far surer than the average itself.
const movedScenarios = 1 << 14
