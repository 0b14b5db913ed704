package crop_test

import (
	"fmt"
	"time"

	"fencerow/program/crop"
)

// Every spelling of the agency is understood, whatever its case or footnote mark.
func ExampleParseCommodity() {
	for _, text := range []string{"Corn 3/", "LONG GRAIN RICE", "long_grain_rice", "gold"} {
		c, ok := crop.ParseCommodity(text)
		fmt.Printf("%q %v\n", c, ok)
	}
	// Output:
	// "corn" true
	// "long_grain_rice" true
	// "long_grain_rice" true
	// "" false
}

// The 23 covered commodities of 7 U.S.C. 9011(6), each with its unit.
func ExampleCommodities() {
	all := crop.Commodities()
	fmt.Println(len(all), all[0].Name(), all[0].Unit().Price(), crop.Peanuts.Unit().Price())
	// Output: 23 wheat USD/bu USD/lb
}

// Peanuts at 535 dollars a ton of 2,000 pounds are 0.2675 a pound.
func ExampleCommodity_PriceFactor() {
	factor, ok := crop.Peanuts.PriceFactor("USD/ton")
	fmt.Printf("%.4f %v\n", 535*factor, ok)
	// Output: 0.2675 true
}

// The marketing year of corn begins in September and is named after both years.
func ExampleMarketingYear() {
	m := crop.MarketingYear{CropYear: 2026, StartMonth: time.September}
	fmt.Println(m, m.Start().Format(time.DateOnly), m.End().Format(time.DateOnly))
	// Output: 2026/27 2026-09-01 2027-08-31
}

// A figure is no firmer than the weakest that it was computed from.
func ExampleComputedFrom() {
	fmt.Println(crop.ComputedFrom(crop.Law, crop.Agency), crop.ComputedFrom(crop.Law, crop.Projected))
	// Output: computed projected
}
