package limits_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/limits"
)

// The limit and the sequestration of a crop year, where the file sets a limit of its own:
// corn and peanuts count against two limits.
func ExampleNewRules() {
	o := farm.Operation{Producers: []farm.Producer{{ID: "ann", Kind: farm.Person}, {ID: "ben", Kind: farm.Person}}}
	o.Settings.PaymentLimit = map[crop.CropYear]float64{2026: 100_000}
	rules, err := limits.NewRules(o, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("%.0f (%s) for each of %d\n", rules.Limit.Value, rules.Limit.Status, len(rules.Attribution.Recipients))
	fmt.Println("one limit for corn and peanuts:", rules.Pool(crop.Corn) == rules.Pool(crop.Peanuts))
	// Output:
	// 100000 (assumed) for each of 2
	// one limit for corn and peanuts: false
}
