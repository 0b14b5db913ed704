package names_test

import (
	"fmt"

	"fencerow/io/batch/names"
	"fencerow/program/farm"
)

// Under a mask every name of part 3 is a number, in sentences too.
func ExampleLabels() {
	labels := names.New("", 3, true, nil)
	words := labels.Words(farm.Operation{Producers: []farm.Producer{{ID: "ann"}}, Farms: []farm.Farm{{Number: "12", County: "99001", Bases: []farm.Base{{Tract: "7"}}}}})
	fmt.Println(labels.Client("Ash Farms"), labels.Farm("99001-12"), labels.Person("ann"), labels.Person("bo"))
	fmt.Println(words("Producer ann has 12.00 base acres on farm 12 (99001-12), tract 7. Annual."))
	fmt.Println(names.Labels{}.Farm("99001-12"), names.Labels{}.Masked())
	// Output:
	// client 3-1 farm 3-1 person 3-1 person 3-2
	// Producer person 3-1 has 12.00 base acres on farm 3-1 (farm 3-1), one tract. Annual.
	// 99001-12 false
}
