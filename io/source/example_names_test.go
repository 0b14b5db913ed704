package source_test

import (
	"fmt"

	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// A farm is found by its number, or by county and number where several have that; other
// spellings of a commodity are understood.
func ExampleFindFarm() {
	o := farm.Operation{Farms: []farm.Farm{{Number: "0417", County: "99001"}, {Number: "0417", County: "99003", Bases: []farm.Base{{Commodity: crop.Corn, BaseAcres: 120}}}}}
	_, err := source.FindFarm(o, "0417")
	fmt.Println(err != nil)
	f, err := source.FindFarm(o, "99003-0417")
	fmt.Println(f.BaseAcres(), err)
	c, err := source.FindCommodity(f, "CORN")
	fmt.Println(c, err)
	// Output:
	// true
	// 120 <nil>
	// corn <nil>
}

// Prices and county yields as people type them, for explain.Explain.
func ExampleParseGiven() {
	given, err := source.ParseGiven("corn=4.10,soybeans=10.00", "99001=188,99003:irrigated=201", "corn")
	fmt.Println(given.MYA, given.Prices[crop.Soybeans], len(given.CountyYield), err)
	// Output: 4.1 10 2 <nil>
}

// Crop years as people type them, each once; what the law does not cover is refused.
func ExampleParseCropYears() {
	years, err := source.ParseCropYears("2026, 2027,2026")
	fmt.Println(years, err)
	_, err = source.ParseCropYears("1996")
	fmt.Println(err != nil)
	// Output:
	// [2026 2027] <nil>
	// true
}

// Commodities as people type them.
func ExampleParseCommodities() {
	fmt.Println(source.ParseCommodities("corn,Long Grain Rice"))
	// Output: [corn long_grain_rice] <nil>
}

// A county's code by its State and name, whatever the spelling; a table of farms may have
// names alone.
func ExampleCountyNames() {
	county := source.CountyNames(farm.CountyBook{{Counties: map[string]farm.County{"99001": {Code: "99001", Name: "Alder County"}}}})
	fmt.Println(county("99", "ALDER"))
	fmt.Println(county("98", "Alder"))
	// Output:
	// 99001 true
	//  false
}
