package rank_test

import (
	"fmt"

	"fencerow/sim/odds/rank"
)

// The lowest, the middle and the highest of five payments.
func ExampleCount() {
	payments := rank.Count([]float64{40, 0, 12.50, 0, 96.09})
	defer payments.Release()
	found := make([]float64, 3)
	payments.At(found, []int{0, 2, 4})
	fmt.Println(found)
	// Output: [0 12.5 96.09]
}
