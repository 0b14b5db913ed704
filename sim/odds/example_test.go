package odds_test

import (
	"fmt"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Prices of one commodity around a projection, with the error of its month.
func ExampleSampler() {
	draws := odds.NewScenarios(1, 4096)
	sampler, err := odds.NewSampler(draws, 2026, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	sigma, _ := odds.Volatility(crop.Corn, 2026, time.Date(2026, time.November, 10, 0, 0, 0, 0, time.UTC))
	prices := make([]float64, draws.N())
	odds.Price{RestMean: 4.80, Sigma: sigma}.Draw(prices, sampler.PriceShock(crop.Corn), nil)
	fmt.Printf("%d draws average %.2f\n", draws.N(), odds.Mean(prices))
	// Output: 4096 draws average 4.80
}

// Half of the outcomes of a price lie under its median.
func ExampleSummarize() {
	draws := odds.NewScenarios(1, 4096)
	sampler, err := odds.NewSampler(draws, 2026, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	paid := make([]float64, draws.N())
	for i, shock := range sampler.PriceShock(crop.Corn) {
		if shock < 0 {
			paid[i] = 1
		}
	}
	fmt.Printf("paid in %.2f of outcomes\n", odds.Summarize(paid, draws).Mean)
	// Output: paid in 0.50 of outcomes
}
