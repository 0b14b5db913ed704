package operation_test

import (
	"errors"
	"fmt"

	"fencerow/io/read/operation"
	"fencerow/program/farm"
)

// An operation file of one invented farm; 99 is no State.
func ExampleParse() {
	o, err := operation.Parse("operation.yaml", []byte(`format: fencerow/operation/1
crop_years: [2026]
farms:
  - farm: "0417"
    county: "99001"
    bases: [{commodity: corn, base_acres: 120.00, payment_yield: 92}]
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	base := o.Farms[0].Bases[0]
	fmt.Printf("farm %s: %.2f base acres of %s, payment yield %.0f\n", o.Farms[0].Number, base.BaseAcres, base.Commodity, *base.PaymentYield)
	// Output: farm 0417: 120.00 base acres of corn, payment yield 92
}

// What is wrong in a file is reported at once, with file, line and column, the value and
// what to do.
func ExampleParse_mistakes() {
	_, err := operation.Parse("operation.yaml", []byte(`format: fencerow/operation/1
farms:
  - {farm: "0417", county: "99001", bases: [{commodity: gold, base_acres: 5}]}
`))
	var mistakes farm.Mistakes
	if errors.As(err, &mistakes) {
		fmt.Printf("line %d, column %d, %q: %s\n", mistakes[0].Line, mistakes[0].Column, mistakes[0].Value, mistakes[0].Reason)
	}
	// Output: line 3, column 57, "gold": crop of a base of farm 0417 is "gold", which is no covered crop
}
