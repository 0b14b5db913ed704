package scores_test

import (
	"fmt"

	"fencerow/sim/odds/scores"
)

// How far off an answer was: a chance of 0.8 of what came scores 0.04; a figure that was held to be
// sure scores its error.
func ExampleBrier() {
	fmt.Printf("%.2f %.2f\n", scores.Brier(0.8, true), scores.CRPS([]float64{15, 15}, 12))
	// Output: 0.04 3.00
}
