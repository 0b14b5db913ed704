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
	sigma, _ := odds.Usual.Volatility(crop.Corn, 2026, time.Date(2026, time.November, 10, 0, 0, 0, 0, time.UTC))
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

// By hand, of 0, 10, 20 and 30: the worst quarter averages 0, the worst half 5; picking them
// against a sure 15 gives away (15 + 5)/4; who shuns no risk takes 15 for them.
func ExampleMeanOfWorst() {
	paid, sure := []float64{0, 10, 20, 30}, []float64{15, 15, 15, 15}
	fmt.Println(odds.MeanOfWorst(paid, 0.25), odds.MeanOfWorst(paid, 0.5), odds.CostOfWrongPick(paid, sure), odds.SureAmount(paid, 100, 0))
	// Output: 0 5 5 15
}

// The values between which most outcomes lie: of 0 to 100 those are the percents themselves.
func ExamplePercentilesOf() {
	values := make([]float64, 101)
	for i := range values {
		values[i] = float64(i)
	}
	fmt.Println(odds.Percents)
	fmt.Printf("%.0f\n", odds.PercentilesOf(values))
	// Output:
	// [5 10 25 50 75 90 95]
	// [5 10 25 50 75 90 95]
}
