package answer_test

import (
	"encoding/json"
	"fmt"
	"os"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Figures are written as they are shown, half up, and a choice in the agency's order of
// commodities; what is missing is null, never 0.
func Example() {
	json.NewEncoder(os.Stdout).Encode(struct {
		Mean    *answer.Dollars
		Missing *answer.Dollars
		Price   answer.Price
		Chance  *answer.Chance
		Choice  answer.Choice
	}{answer.DollarsOf(53.555), nil, answer.Price{Value: 4.1, Decimals: 2}, answer.ChanceOf(1. / 3),
		answer.Choice{crop.Soybeans: farm.PLC, crop.Corn: farm.ARCCO}})
	// Output: {"Mean":53.56,"Missing":null,"Price":4.10,"Chance":0.333333,"Choice":{"corn":"ARC-CO","soybeans":"PLC"}}
}

// Words that people give become criteria, each once.
func ExampleParseCriteria() {
	asked, err := answer.ParseCriteria("worst, sure_amount,worst")
	fmt.Println(asked, err)
	_, err = answer.ParseCriteria("luck")
	fmt.Println(err != nil)
	// Output:
	// [worst sure_amount] <nil>
	// true
}
