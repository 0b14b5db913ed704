package payoff_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// What both programs pay per base acre where price and county yield are sure. At 4.00 PLC
// pays (4.42 - 4.00) x 150 x 0.85 = 53.55; at 190 bushels ARC-CO pays (847.91 - 760.00) x 0.85 =
// 74.72: 847.91 is 90 percent of 187.30 x 5.03.
func ExampleOf() {
	m, yield := invented.Market("2026-11-10"), 190.0
	invented.Project(m, crop.Corn, 2026, 4.00, 0)
	county := invented.CornYield(farm.YieldOutlook{Yield: &yield, SD: invented.Number(0)})
	from := position.Sources{Counties: invented.Book(county), Market: m}
	one := invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150))
	bases, err := from.CommodityBases(one, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	year, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256}).Year(2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	price, _ := from.Price(crop.Corn, 2026, 2)
	all := payoff.Of(&payoff.Year{Year: year}, farm.Operation{Farms: []farm.Farm{one}}, bases[0], price)
	fmt.Printf("PLC %.2f, ARC-CO %.2f\n", all.Of(farm.PLC).Mean, all.Of(farm.ARCCO).Mean)
	// Output: PLC 53.55, ARC-CO 74.72
}
