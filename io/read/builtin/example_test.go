package builtin_test

import (
	"fmt"

	"fencerow/io/read/builtin"
)

// The tables of one State, and what they were made from. State 99 is invented and has
// none; of real States FSA's, RMA's and NASS's tables come in this order.
func ExampleSources() {
	invented, err := builtin.Sources("99")
	fmt.Println(len(invented), err)
	iowa, err := builtin.Sources("19")
	fmt.Println(len(iowa), iowa[0].Status, err)
	// Output:
	// 0 <nil>
	// 3 agency <nil>
}

// The agencies' files behind the tables: one for each of FSA's ten program years that are
// at hand, one of RMA, one of NASS.
func ExampleFiles() {
	count := map[string]int{}
	for _, f := range builtin.Files() {
		count[f.Agency]++
	}
	fmt.Println(count)
	// Output:
	// map[FSA:10 NASS:1 RMA:1]
}
