package spoken_test

import (
	"fmt"

	"fencerow/io/show/report"
	"fencerow/io/show/spoken"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
)

// The number of a farm is read out digit by digit.
func ExampleOf() {
	q := cases.Corn()
	q.Draws = 256
	c, err := compare.Answer(q)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(spoken.Of(c).Blocks[2].(report.Text))
	// Output:
	// Farm number 0 4 1 7, in Alder County.
}
