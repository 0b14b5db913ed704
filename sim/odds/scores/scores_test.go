package scores

import (
	"math"
	"testing"
)

// By hand. Of 1, 2, 2, 4 the value 2 has one below it and two equal, 2/4 in all. CRPS of 0 and 2
// at 1 is the mean distance, 1, less half the mean distance of two of them, 0.5. A chance of 0.3
// is 0.7 off what came and 0.3 off what did not.
func TestScoresByHand(t *testing.T) {
	for what, c := range map[string][2]float64{
		"PIT": {PIT([]float64{1, 2, 2, 4}, 2), 0.5}, "CRPS": {CRPS([]float64{0, 2}, 1), 0.5}, "Brier, came": {Brier(0.3, true), 0.49}, "Brier, did not": {Brier(0.3, false), 0.09},
	} {
		if math.Abs(c[0]-c[1]) > 1e-12 {
			t.Errorf("%s is %v, by hand %v", what, c[0], c[1])
		}
	}
}
