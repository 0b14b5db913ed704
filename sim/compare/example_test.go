package compare_test

import (
	"fmt"
	"math"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// The odds of corn on one farm. What can happen is that neither pays, that one pays more or
// that both pay the same: the four chances add to 1, and the averages differ by the difference.
func ExampleAnswer() {
	q := cases.Corn() // corn at 4.80 and a county yield of 188, both uncertain
	q.Draws = 1024
	a, err := compare.Answer(q)
	if err != nil {
		fmt.Println(err)
		return
	}
	corn := a.CropYears[0].Farms[0].Commodities[0]
	sum := *corn.ChanceNeitherPays + *corn.ChancePLCMore + *corn.ChanceARCCOMore + *corn.ChanceEqual
	between := corn.Programs.Of(farm.ARCCO).Mean - corn.Programs.Of(farm.PLC).Mean
	fmt.Printf("%s: chances add to %.6f; %v\n", corn.Commodity, sum, math.Abs(float64(between-corn.Difference.Mean)) < 1e-9)
	// Output: corn: chances add to 1.000000; true
}

// Many operations on the same scenarios: each is answered as it would be alone. A price of 3.42
// is sure here, and PLC pays 4.42 - 3.42 = 1.00 on 150 bushels and 85 percent of an acre.
func ExampleMany_Compare() {
	q := cases.SharedOperation(100, []farm.Producer{{ID: "operator", Kind: farm.Person}}, farm.Shares{"operator": 1})
	q.Draws = 256
	many := compare.NewMany(q)
	for _, acres := range []float64{100, 500} {
		o := q.Operation
		o.Farms = []farm.Farm{invented.OneFarm("0417", invented.Base(crop.Corn, acres, 150))}
		a, err := many.Compare(o)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%.0f acres: PLC %.2f per acre\n", acres, a.CropYears[0].Farms[0].Commodities[0].Programs.Of(farm.PLC).Mean)
	}
	// Output:
	// 100 acres: PLC 127.50 per acre
	// 500 acres: PLC 127.50 per acre
}

// Draws are doubled until the average difference is sure enough, USD per base acre.
func ExampleAnswerUntil() {
	q := cases.Corn()
	q.Draws = 256
	_, worst, err := compare.AnswerUntil(q, 0.50, 1<<16, func(draws int, worst float64) {})
	fmt.Println(worst <= 0.50, err)
	// Output: true <nil>
}
