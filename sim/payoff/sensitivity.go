package payoff

import (
	"math"

	"fencerow/sim/odds"
	"fencerow/sim/position"
)

// Sensitivity takes other means than the odds do. The zero value takes the same.
type Sensitivity struct {
	PriceErrors float64            // usual errors (position.Price.UsualError) that the mean price is higher by
	Estimator   position.Estimator // of the mean of each county yield that has it
	YieldOff    float64            // part of their means that the county yields are higher by
}

// Band is what the model does not know of the means: the price as it is, one usual error
// lower and higher, with each estimator of the mean county yield. The first takes the
// means as drawn.
var Band = func() (all [bandSize]Sensitivity) {
	for i := range all {
		all[i] = Sensitivity{PriceErrors: [...]float64{0, -1, 1}[i/int(position.Estimators)], Estimator: position.Estimator(i % int(position.Estimators))}
	}
	return all
}()

const bandSize = 3 * int(position.Estimators)

// movedScenarios is the number of scenarios, from the first on, that moved means are worked
// out on: what an average changes by is far surer than the average itself.
const movedScenarios = 1 << 14

// priceFactor is what a price is multiplied by.
func (s Sensitivity) priceFactor(p position.Price) float64 {
	if s.PriceErrors == 0 || p.Final {
		return 1
	}
	return math.Exp(s.PriceErrors * p.UsualError)
}

// yieldFactor is what a county yield is multiplied by.
func (s Sensitivity) yieldFactor(y position.Yield) float64 {
	if y.Stage == odds.Final {
		return 1
	}
	return y.FactorOf(s.Estimator) * (1 + s.YieldOff)
}
