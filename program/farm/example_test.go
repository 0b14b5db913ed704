package farm_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// A farm with two bases of corn and one of wheat: its key, what it has base of, in the
// agency's order, and how much.
func ExampleFarm() {
	f := farm.Farm{Number: "0417", County: "99001", Bases: []farm.Base{
		{Commodity: crop.Corn, BaseAcres: 95}, {Commodity: crop.Corn, BaseAcres: 60}, {Commodity: crop.Wheat, BaseAcres: 110},
	}}
	fmt.Println(f.Key(), f.Commodities(), f.BaseAcres(), len(f.BasesOf(crop.Corn)))
	// Output: 99001-0417 [wheat corn] 265 2
}

// A price that is a hundred times too high is most likely one in cents: 410/100 is 4.10.
func ExampleCheckPrice() {
	fmt.Println(farm.CheckPrice("price of corn", crop.Corn, 4.10) == nil)
	fmt.Println(farm.CheckPrice("price of corn", crop.Corn, 410).Reason)
	// Output:
	// true
	// unit_suspect: price of corn: 410 USD/bu is not plausible. It reads like 410 cents/bu, which is 4.1 USD/bu
}

// The first source that has a county's yields wins; all that have some are listed.
func ExampleCountyBook_Entries() {
	yields := func(y float64) map[string]farm.County {
		return map[string]farm.County{"99001": {Code: "99001", Name: "Alder County", Yields: []farm.CountyYield{
			{Commodity: crop.Corn, Practice: farm.AllPractices, Actual: map[crop.CropYear]float64{2025: y}}}}}
	}
	book := farm.CountyBook{{Name: "typed", Counties: yields(181)}, {Name: "table", Counties: yields(180)}}
	for _, e := range book.Entries("99001", crop.Corn, farm.AllPractices) {
		fmt.Println(e.Source.Name, e.Actual[2025])
	}
	// Output:
	// typed 181
	// table 180
}

// One's own prices lie over those of another market; what they do not say stays.
func ExampleMarket_Over() {
	price := func(y crop.CropYear, p float64) farm.Market {
		return farm.Market{MYA: map[crop.Commodity]map[crop.CropYear]farm.Figure{crop.Corn: {y: {Value: p}}}}
	}
	both := price(2025, 4.20).Over(price(2024, 4.24))
	older, _ := both.Price(crop.Corn, 2024)
	newer, _ := both.Price(crop.Corn, 2025)
	fmt.Println(older.Value, newer.Value)
	// Output: 4.24 4.2
}
