package county_test

import (
	"fmt"

	"fencerow/io/read/county"
)

// One's own yields of an invented county; 99 is no State.
func ExampleParse() {
	c, err := county.Parse("alder.yaml", []byte(`format: fencerow/county/1
code: "99001"
name: Alder County
yields:
  - {commodity: corn, benchmark_yield: {2026: 187.30}, actual: {2025: 181, 2024: 186.9}}
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	y := c.Yields[0]
	fmt.Printf("%s %s, %s, %s: benchmark yield %.2f, %d actual yields\n", c.Code, c.Name, y.Commodity, y.Practice, y.BenchmarkYield[2026], len(y.Actual))
	// Output: 99001 Alder County, corn, all: benchmark yield 187.30, 2 actual yields
}
