package front_test

import (
	"fmt"

	"fencerow/io/show/workbook/cells"
	"fencerow/io/show/workbook/front"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/explain"
	"fencerow/sim/invented/cases"
)

// The guarantee of a county row, from formulas alone: 90 percent of benchmark yield times
// benchmark price. For corn in 2026 that is 0.9 x 187.30 x 5.03, each rounded to the cent:
// 942.12, then 847.91.
func ExampleLay() {
	rows, err := explain.CountyRowsOf(cases.Corn(), 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	book := front.Lay([]explain.CountyRows{rows})
	found, err := cells.Evaluate(append(book.Sheets(), book.Hidden()...))
	if err != nil {
		fmt.Println(err)
		return
	}
	corn := front.CountyKey{County: "99001", Commodity: crop.Corn, Practice: farm.AllPractices, CropYear: 2026}
	fmt.Println(found[book.Yields[corn].Guarantee])
	// Output: 847.91
}
