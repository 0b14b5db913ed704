package moved_test

import (
	"fmt"

	"fencerow/sim/answer"
	"fencerow/sim/moved"
)

// A lead that the price alone turns, while the county yield alone moves its margin, is put
// down to the price.
func ExampleTold_Cause() {
	was, is := line{"ARC-CO", "9.00"}, line{"PLC", "-4.00"}
	cause, moves, flips := moved.Told[line]{Before: was, Base: was, After: is, Differ: []answer.Cause{answer.CausePrice, answer.CauseCounty},
		Alone: map[answer.Cause]line{answer.CausePrice: {"PLC", "-6.00"}, answer.CauseCounty: {"ARC-CO", "11.00"}}}.Cause()
	fmt.Println(cause, moves, flips)
	// Output: price [price county_yield] [price]
}

// A price that changed is named from old to new; what did not change is left out.
func ExamplePrices() {
	at := func(price float64) answer.CommodityPart {
		return answer.CommodityPart{MYA: &answer.PriceView{Mean: answer.Price{Value: price, Decimals: 2}}, BenchmarkPrice: &answer.Price{Value: 5.03, Decimals: 2}}
	}
	for _, one := range moved.Prices(at(4.55), at(4.1)) {
		fmt.Println(one.What, one.Before, one.After)
	}
	// Output: price 4.55 4.10
}
