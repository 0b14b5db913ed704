package backtest_test

import (
	"fmt"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/backtest"
	"fencerow/sim/invented"
)

// One county in one past year, asked about as in May: corn was projected at 3.20 and came at
// 6.00, so that nothing was paid.
func ExampleRun() {
	unit := farm.PastUnit{County: "99001", Commodity: crop.Corn, Practice: farm.AllPractices}
	past := farm.Past{
		Rows: []farm.PastRow{{PastUnit: unit, CropYear: 2021, BenchmarkYield: 180, BenchmarkRevenue: 666, ActualYield: 182, MYA: 6.00, BaseAcres: 1000, PaymentYield: 150,
			Adjusted: &[5]float64{178, 179, 180, 181, 182}}},
		Forecasts: []farm.Forecast{{Date: time.Date(2021, 5, 12, 0, 0, 0, 0, time.UTC), Commodity: crop.Corn, CropYear: 2021, Price: 3.20}},
	}
	s, err := backtest.Run(backtest.Setup{Past: past, Market: invented.LongMarket(), Seed: 1, Draws: 256}, func(done, all int) {})
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, o := range s.Odds {
		fmt.Println(o.KnownFrom, o.Commodity, o.Rows, "said more than came:", o.Years[0].SaidShare > o.Years[0].CameShare)
	}
	// Output: May corn 1 said more than came: true
}
