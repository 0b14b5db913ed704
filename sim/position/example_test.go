package position_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/position"
)

// What holds for corn of 2026 on every farm: 88 percent of the Olympic average of 4.53,
// 6.00, 6.54, 4.55 and 4.24 is 4.42; with 4.24 raised to that the average is 5.03.
func ExampleNationalOf() {
	n, err := position.NationalOf(invented.Market("2026-11-10"), crop.Corn, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Printf("reference price %.2f, benchmark price %.2f\n", n.Target.Value, n.BenchmarkPrice.Value)
	// Output: reference price 4.42, benchmark price 5.03
}

// The base of one farm with all that the law needs: 85 percent of 120 acres are 102; the
// benchmark yield is the average of the middle three of 184.20, 187.00, 193.10, 178.43, 190.70;
// no price of 2026 is projected.
func ExampleSources_CommodityBases() {
	from := position.Sources{Counties: invented.Book(invented.CornYield(farm.YieldOutlook{})), Market: invented.Market("2026-11-10")}
	all, err := from.CommodityBases(invented.OneFarm("0417", invented.Base(crop.Corn, 120, 150)), 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	base := all[0].Bases[0]
	_, projected := from.Price(crop.Corn, 2026, 2)
	fmt.Printf("%.2f payment acres, benchmark yield %.2f, price projected: %v\n", base.PaymentAcres, base.Practices[0].Benchmark.Value, projected)
	// Output: 102.00 payment acres, benchmark yield 187.30, price projected: false
}
