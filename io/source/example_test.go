package source_test

import (
	"fmt"
	"log"
	"testing/fstest"
	"time"

	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/compare"
	"fencerow/sim/explain"
)

// files are an invented farm and an invented price, far under the reference price and
// all but certain; 99 is no State.
var files = fstest.MapFS{
	"operation.yaml": {Data: []byte(`format: fencerow/operation/1
crop_years: [2026]
market_file: market.yaml
producers: [{id: operator}]
farms:
  - {farm: "0417", county: "99001", shares: {operator: 1}, bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]}
`)},
	"market.yaml": {Data: []byte(`format: fencerow/market/1
as_of: 2026-11-10
source: invented
outlook: {corn: {2026: {price: 3.50, volatility: 0.01}}}
`)},
}

// From an operation file to what PLC pays at one price, and to its odds. By hand: the
// reference price of 2026 is 88 percent (P.L. 119-21) of the Olympic average of 4.53, 6.00,
// 6.54, 4.55 and 4.24 (2020 to 2024, io/read/market/builtin.csv), 4.42; and 0.42 x 150
// bushels x 85 percent of 100 acres is $5,355.00.
func Example() {
	found, err := source.Question(source.Request{Files: files, Operation: "operation.yaml", Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Draws: 1024})
	if err != nil {
		log.Fatal(err)
	}
	steps, err := explain.Explain(found.Question, found.Question.Operation.Farms[0], crop.Corn, 2026, explain.Given{MYA: 4.00})
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("PLC at $4.00: $%.2f\n", *steps.Programs.Of(farm.PLC).Payment)
	odds, err := compare.Answer(found.Question)
	if err != nil {
		log.Fatal(err)
	}
	fmt.Printf("PLC pays in %.0f of 100 outcomes\n", 100*odds.CropYears[0].Farms[0].Commodities[0].Programs.Of(farm.PLC).ChanceOfPayment)
	// Output:
	// PLC at $4.00: $5355.00
	// PLC pays in 100 of 100 outcomes
}
