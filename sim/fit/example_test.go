package fit_test

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/fit"
)

// An estimate is a row of parameters.csv to be; its standard error begins the note.
func ExampleEstimate_Row() {
	e := fit.Estimate{Param: "spread", Commodity: "corn", Region: "US", Key: "annual", Value: 0.25, Error: 0.0412, Count: 30, Period: "1990-2019", Source: "judgement", Note: "invented"}
	fmt.Println(strings.Join(e.Row(), ","))
	// Output: spread,corn,US,annual,0.25,30,1990-2019,judgement,standard error 0.041; invented
}

// Two crop years enter no estimate.
func ExampleHeldBack() {
	for y := 2014; y <= 2023; y++ {
		if fit.HeldBack(y) {
			fmt.Println(y)
		}
	}
	// Output:
	// 2016
	// 2022
}

// Two counties of one invented State, 97, and one of another, in NASS's yields of 16 years:
// those of one State stand above and below their line in the same years, the third in others
// as often the same as not.
func ExampleYieldDependence() {
	past := farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{}}
	for county, pattern := range map[string]string{"97001": "+-+-", "97003": "+-+-", "98001": "+--+"} {
		yields := map[crop.CropYear]crop.Yield{}
		for y := 1990; y < 2006; y++ {
			yields[y] = 110
			if pattern[y%4] == '-' {
				yields[y] = 90
			}
		}
		past.Harvested[farm.PastSeries{PastUnit: farm.PastUnit{County: county, Commodity: crop.Corn, Practice: farm.AllPractices}}] = yields
	}
	for _, e := range fit.YieldDependence(past) {
		if e.Commodity == "corn" {
			fmt.Println(e.Param, e.Value)
		}
	}
	// Output:
	// within_state_county_yield_corr 1
	// between_states_county_yield_corr 0
}

// Ten prices that all rise and fall together are one: the correlation of each of the 45
// pairs is 1. Six have a spread of yearly innovations: none here, since every price goes
// back and forth between the same two.
func ExamplePriceInnovations() {
	prices := fit.Prices{}
	for i, c := range []crop.Commodity{crop.Corn, crop.Wheat, crop.GrainSorghum, crop.Barley, crop.Oats, crop.Peanuts, crop.Canola, crop.SunflowerSeed, crop.Flaxseed, crop.DryPeas} {
		prices[c] = map[crop.CropYear]crop.Price{}
		for y := 1990; y <= 2024; y++ {
			prices[c][y] = float64(i+1) * []float64{4, 5}[y%2]
		}
	}
	found := fit.PriceInnovations(prices)
	fmt.Println(len(found), found[0].Commodity, found[0].Value, found[0].Count)
	fmt.Printf("%s %s %.1f\n", found[45].Param, found[45].Commodity, found[45].Value)
	// Output:
	// 52 corn|wheat 1 29
	// ar1_innovation_sd corn 0.0
}

// Two prices a year came out a tenth above and below what was forecast: the standard deviation
// of the eight errors about their mean of 0 is the root of 8/7 of .01. A crop year held back
// changes nothing.
func ExampleForecastErrors() {
	var misses []fit.ForecastMiss
	for y := 2017; y < 2021; y++ {
		misses = append(misses, fit.ForecastMiss{Commodity: "corn", CropYear: y, Month: "May", Log: 0.1}, fit.ForecastMiss{Commodity: "corn", CropYear: y, Month: "May", Log: -0.1})
	}
	misses = append(misses, fit.ForecastMiss{Commodity: "corn", CropYear: 2022, Month: "May", Log: 2})
	for _, e := range fit.ForecastErrors(misses) {
		fmt.Println(e.Value, e.Count)
	}
	// Output: 0.1069 8
}

// Six crop years in which the harvest price and the final national price go the same way.
func ExampleHarvestPrices() {
	var pairs []fit.PricePair
	var misses []fit.ForecastMiss
	for y := 2001; y <= 2006; y++ {
		up := float64(y%3) / 10
		pairs = append(pairs, fit.PricePair{Commodity: crop.Corn, CropYear: y, Projected: 1, Harvest: 1 + up})
		misses = append(misses, fit.ForecastMiss{Commodity: "corn", CropYear: y, Month: "May", Log: up})
	}
	e := fit.HarvestPrices(pairs, misses)
	fmt.Println(e.Param, e.Value, e.Count)
	r, _, counties := fit.HarvestPriceYields(pairs, past(pairs))
	fmt.Printf("%.2f %d\n", r, counties)
	// Output:
	// harvest_price_corr 1 6
	// -1.00 1
}

// past has one invented county whose yields stand on a line, but below it where the harvest
// price came out above the projected one.
func past(pairs []fit.PricePair) farm.Past {
	yields := map[crop.CropYear]crop.Yield{}
	for y := 1980; y < 2007; y++ {
		yields[y] = 100
	}
	for _, p := range pairs {
		yields[p.CropYear] = 100 - 20*(p.Harvest-1)
	}
	at := farm.PastSeries{PastUnit: farm.PastUnit{County: "97001", Commodity: crop.Corn, Practice: farm.AllPractices}}
	return farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{at: yields}}
}
