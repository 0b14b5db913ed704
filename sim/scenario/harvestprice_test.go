package scenario

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/sim/invented"
	"fencerow/sim/position"
)

// A published harvest price is the same in all scenarios. An open one has the projected price
// on average and the volatility factor as the standard deviation of its logarithm, is written
// in cents, and moves with the national price.
func TestHarvestPricesByScenario(t *testing.T) {
	m := invented.Market("2026-03-01")
	invented.Project(m, crop.Corn, 2026, 4.20, 0.18)
	from := position.Sources{Market: m}
	year, err := NewPaths(from, Settings{Seed: 3, Draws: 65536}).Year(2026)
	if err != nil {
		t.Fatal(err)
	}
	for _, x := range year.HarvestPrices(crop.Corn, position.PricePair{Projected: 4.60, Harvest: 4.16, Volatility: 0.2, Decimals: 2}) {
		if x != 4.16 {
			t.Fatalf("published: %v", x)
		}
	}
	open := year.HarvestPrices(crop.Corn, position.PricePair{Projected: 4.60, Volatility: 0.2, Decimals: 2})
	logs := make([]float64, len(open))
	for i, x := range open {
		logs[i] = math.Log(x)
		if cents := 100 * x; math.Abs(cents-math.Floor(cents+0.5)) > 1e-6 {
			t.Fatalf("scenario %d is %v", i, x)
		}
	}
	mean, sd := stat.Mean(open, nil), stat.StdDev(logs, nil)
	if math.Abs(mean-4.60) > 0.01 || math.Abs(sd-0.2) > 0.003 {
		t.Errorf("average %v, standard deviation of logarithms %v; want 4.60 and 0.2", mean, sd)
	}
	price, _ := from.Price(crop.Corn, 2026, 2)
	if r := stat.Correlation(open, year.Prices(crop.Corn, price), nil); r < 0.7 {
		t.Errorf("correlation with the national price %v", r)
	}
}
