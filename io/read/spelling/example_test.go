package spelling_test

import (
	"fmt"

	"fencerow/io/read/spelling"
)

// A number with a thousands comma is read; one whose comma may be a decimal comma is not.
func ExampleNumber() {
	acres, fault := spelling.Number("1,204.5", spelling.Habits{})
	fmt.Println(acres, fault == nil)
	_, fault = spelling.Number("1,5", spelling.Habits{})
	fmt.Println(fault.Reason)
	// Output:
	// 1204.5 true
	// with a comma that may stand for decimals or for thousands
}

// A percentage is a part of one: 35 of 100 is 0.35.
func ExampleShare() {
	share, _ := spelling.Share("35%", spelling.Habits{})
	fmt.Println(share)
	// Output: 0.35
}

// A program is known by its name in words; ARC alone may be either of two.
func ExampleProgram() {
	program, ok := spelling.Program("Price Loss Coverage")
	fmt.Println(program, ok)
	_, ok = spelling.Program("ARC")
	fmt.Println(ok)
	// Output:
	// PLC true
	// false
}
