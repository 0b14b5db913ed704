package kept_test

import (
	"fmt"

	"fencerow/io/batch/kept"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// The rows of the law that two runs used: which of them can an answer on corn rest on?
func ExampleLawChanges() {
	before := [][]string{{"reference_price", "corn", "2025", "2031", "4.00"}, {"reference_price", "wheat", "2025", "2031", "6.00"}}
	after := [][]string{{"reference_price", "corn", "2025", "2031", "4.10"}, {"reference_price", "wheat", "2025", "2031", "6.35"}}
	fmt.Println(kept.LawChanges(before, after, crop.Corn, 2026))
	// Output: [{reference_price corn 4.00 4.10}]
}

// A run keeps the counties of its States alone; 99 and 98 are no States.
func ExampleOfStates() {
	book := farm.CountyBook{{Name: "typed", Counties: map[string]farm.County{"99001": {Code: "99001"}, "98001": {Code: "98001"}}}}
	fmt.Println(len(kept.OfStates(book, map[string]bool{"99": true})[0].Counties))
	// Output: 1
}
