package limits_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/limits"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
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

// What reaches people under some elections. PLC pays a sure 0.42 x 150 bushels
// on 850 acres, 53,550, of which half is the operator's: 26,775. A limit of 20,000 leaves 20,000;
// nothing is sequestered here.
func ExamplePayments_MeanAfterLimit() {
	m := invented.Market("2026-11-10")
	invented.Project(m, crop.Corn, 2026, 4.00, 0)
	from, f := position.Sources{Market: m}, invented.OneFarm("0417", invented.Base(crop.Corn, 1000, 150))
	f.Shares.Every = &farm.Shares{"operator": 0.5}
	o := farm.Operation{Producers: []farm.Producer{{ID: "operator", Kind: farm.Person}}, Farms: []farm.Farm{f}}
	o.Settings = farm.Settings{PaymentLimit: map[crop.CropYear]float64{2026: 20_000}, Sequestration: map[crop.CropYear]float64{2026: 0}}
	rules, err := limits.NewRules(o, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	bases, _ := from.CommodityBases(f, 2026)
	year, _ := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256}).Year(2026)
	price, _ := from.Price(crop.Corn, 2026, 2)
	payments := limits.NewPayments(rules, year.Buffers)
	payments.Add(bases[0], payoff.Of(&payoff.Year{Year: year}, o, bases[0], price))
	elected := []limits.Election{{Farm: f.Key(), Commodity: crop.Corn, Program: farm.PLC}}
	fmt.Printf("%.2f before, %.2f after\n", payments.Mean(payments.Totals[elected[0]]), payments.MeanAfterLimit(elected))
	// Output: 53550.00 before, 20000.00 after
}
