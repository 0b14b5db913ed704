package fit_test

import (
	"fmt"
	"strings"

	"fencerow/sim/fit"
)

// An estimate is a row of parameters.csv to be; its standard error begins the note.
func ExampleEstimate_Row() {
	e := fit.Estimate{Param: "spread", Commodity: "corn", Region: "US", Key: "annual", Value: 0.25, Error: 0.0412, Count: 30, Period: "1990-2019", Source: "judgement", Note: "invented"}
	fmt.Println(strings.Join(e.Row(), ","))
	// Output: spread,corn,US,annual,0.25,30,1990-2019,judgement,standard error 0.041; invented
}

// Two crop years enter no estimate.
func ExampleHeldBack() {
	for y := 2014; y <= 2023; y++ {
		if fit.HeldBack(y) {
			fmt.Println(y)
		}
	}
	// Output:
	// 2016
	// 2022
}
