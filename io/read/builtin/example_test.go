package builtin_test

import (
	"fmt"

	"fencerow/io/read/builtin"
)

// The tables of one State, and what they were made from. State 99 is invented and has
// none; of real States FSA's, RMA's and NASS's tables come in this order.
func ExampleSources() {
	invented, err := builtin.Sources("99")
	fmt.Println(len(invented), err)
	iowa, err := builtin.Sources("19")
	fmt.Println(len(iowa), iowa[0].Status, err)
	// Output:
	// 0 <nil>
	// 3 agency <nil>
}

// The agencies' files behind the tables: one for each of FSA's ten program years that are
// at hand, one of RMA, one of NASS; and
// those of past crop years beside them: FSA's base acres and enrolment, WASDE's prices.
func ExampleFiles() {
	count := map[string]int{}
	for _, f := range builtin.Files() {
		count[f.Agency]++
	}
	fmt.Println(count)
	// Output:
	// map[FSA:12 NASS:1 RMA:1 WASDE:1]
}

// The tables of past crop years, which backtest.Completed and backtest.Run take: of Boone
// County, Iowa, the row of corn 2019. FSA prints a benchmark yield of 204.3, an actual yield of
// 204.47, 176,426.96 base acres and an average payment yield of 152.
func ExamplePast() {
	past, err := builtin.Past()
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, r := range past.Rows {
		if r.County == "19015" && r.Commodity == "corn" && r.CropYear == 2019 {
			fmt.Println(r.BenchmarkYield, r.ActualYield, r.BaseAcres, r.PaymentYield)
		}
	}
	// Output: 204.3 204.47 176426.96 152
}
