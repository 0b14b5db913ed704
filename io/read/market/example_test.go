package market_test

import (
	"fmt"
	"strings"

	"fencerow/io/read/market"
	"fencerow/program/crop"
)

// One's own prices: 535 dollars a ton of peanuts are 535/2,000 a pound.
func ExampleParse() {
	m, err := market.Parse("market.yaml", []byte(`format: fencerow/market/1
as_of: 2026-11-10
source: my elevator
units: {peanuts: USD/ton}
mya: {corn: {2025: 4.15}}
outlook: {peanuts: {2026: {price: 535}}}
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	known, _ := m.Price(crop.Corn, 2025)
	fmt.Printf("%.2f (%s), %.4f (%s)\n", known.Value, known.Status, m.Outlook[crop.Peanuts][2026].Value, m.Outlook[crop.Peanuts][2026].Status)
	// Output: 4.15 (assumed), 0.2675 (projected)
}

// The built-in prices need no file: corn of crop year 2020 came at 4.53 (FSA, Table 1 of 10
// April 2025).
func ExampleBuiltin() {
	p, ok := market.Builtin().Price(crop.Corn, 2020)
	fmt.Printf("%.2f %s %v\n", p.Value, p.Status, ok)
	// Output: 4.53 agency true
}

// The season-average prices in the CSV of a WASDE report; this one is invented.
func ExampleReadWASDE() {
	report, is, err := market.ReadWASDE(strings.NewReader(`WasdeNumber,Attribute,Commodity,Region,MarketYear,ProjEstFlag,AnnualQuarterFlag,Value,Unit,ReleaseDate
999,Avg. Farm Price,Corn,United States,2026/27,Proj.,Annual,4.20,$/bu,2026-11-10
999,Production,Corn,United States,2026/27,Proj.,Annual,16000,Million Bushels,2026-11-10
`))
	if !is || err != nil {
		fmt.Println(is, err)
		return
	}
	for _, p := range report.Prices {
		fmt.Printf("%s %d: %.2f, final: %v\n", p.Commodity, p.CropYear, p.Price, p.Final)
	}
	// Output: corn 2026: 4.20, final: false
}
