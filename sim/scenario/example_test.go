package scenario_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Prices of 2026 around a projection of 4.80: their average is the projection, and the same
// seed draws the same again.
func ExamplePaths_Year() {
	m := invented.Market("2026-11-10")
	invented.Project(m, crop.Corn, 2026, 4.80, 0.15)
	from := position.Sources{Market: m}
	price, _ := from.Price(crop.Corn, 2026, 2)
	var twice [2][]float64
	for i := range twice {
		year, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 4096}).Year(2026)
		if err != nil {
			fmt.Println(err)
			return
		}
		twice[i] = year.Prices(crop.Corn, price)
	}
	fmt.Printf("%d scenarios average %.2f; the same again: %v\n", len(twice[0]), odds.Mean(twice[0]), twice[0][99] == twice[1][99])
	// Output: 4096 scenarios average 4.80; the same again: true
}
