package elect_test

import (
	"fmt"

	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/elect"
)

// One producer with a limit of 100 earns 120 in the first of two scenarios and nothing in the
// second: 50 on average after the limit. The flip ends the 120 and pays 80 in both: 80.
func ExampleOperation_Best() {
	people := program.NewAttribution([]farm.Producer{{ID: "ann", Kind: farm.Person}}, program.LimitRule{Limit: 100, CropYear: 2026})
	o := elect.Operation{Attribution: people, Places: []int{people.Find("ann")}, Parallel: func(n int, do func(int)) {
		for i := range n {
			do(i)
		}
	}}
	o.Earned[0] = [][]float64{{120, 0}}
	o.Flips = []elect.Flip{{
		{Series: []float64{120, 0}, Stakes: []elect.Stake{{Share: -1}}},
		{Series: []float64{80, 80}, Stakes: []elect.Stake{{Share: 1}}},
	}}
	best := o.Best(8)
	fmt.Println(best.Flipped, best.Bound, best.Exact)
	// Output: [true] 80 true
}

// All four choices of a farm with two commodities of 10 and 20 units: bit k of a choice is
// commodity k under ARC-CO. By hand 10 x 0.5 + 20 x 1 is 25; 10 x 2 + 20 x 1 is 40; 5 + 0 and 20 + 0.
func ExampleWorkspace_EveryChoice() {
	payment := func(mean, weight float64) elect.Payment {
		return elect.Payment{Rates: []float64{0, 2 * mean}, Mean: mean, Weight: weight}
	}
	var figures [4]elect.Figures
	highest := new(elect.Workspace).EveryChoice(figures[:], []elect.Commodity{{payment(0.5, 10), payment(2, 10)}, {payment(1, 20), payment(0, 20)}})
	for _, f := range figures {
		fmt.Print(f.Mean, " ")
	}
	fmt.Println("highest:", highest)
	// Output: 25 40 5 20 highest: 1
}
