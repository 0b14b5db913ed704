package odds_test

import (
	"fmt"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// Prices of one commodity around a projection, with the error of its month.
func ExampleSampler() {
	draws := odds.NewDraws(1, 4096)
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
