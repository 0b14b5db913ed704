package flag_test

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/sim/flag"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// What arithmetic misses, without drawing anything: ten acres of base or less are paid
// nothing (7 U.S.C. 9014(d)).
func ExampleCheck() {
	q := cases.Corn()
	q.Operation.Farms[0].Bases[0] = invented.Base(crop.Corn, 9.5, 150)
	for _, f := range flag.Check(q).Farms[0].Flags {
		if f.Code == "ten_acres" {
			fmt.Println(f.Code, f.Severity)
		}
	}
	// Output: ten_acres error
}
