package operation_test

import (
	"fmt"

	"fencerow/io/read/operation"
)

// The built-in invented operation, as a file: its farms with their base.
func ExampleRead() {
	o, err := operation.Read("../../../cmd/fencerow/demo/operation.yaml")
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, f := range o.Farms {
		fmt.Printf("farm %s of county %s:", f.Number, f.County)
		for _, b := range f.Bases {
			fmt.Printf(" %s %.2f acres;", b.Commodity, b.BaseAcres)
		}
		fmt.Println()
	}
	// Output:
	// farm 0417 of county 99001: corn 120.00 acres; soybeans 80.00 acres;
	// farm 0588 of county 99001: corn 95.00 acres; corn 60.00 acres; soybeans 110.00 acres;
	// farm 1203 of county 99003: corn 140.00 acres; wheat 210.00 acres;
}
