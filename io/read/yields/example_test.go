package yields_test

import (
	"fmt"
	"strings"

	"fencerow/io/read/yields"
)

// The county yields report of RMA, with an invented county.
func ExampleRead() {
	text := `Commodity Code,Commodity Name,State Code,State Name,State Abbreviation,County Code,County Name,Irrigation Practice Code,Irrigation Practice Name,Yield Year,Yield Amount
0041, Corn, 99, Nowhere, ZZ, 001, Alder, 003, Non-Irrigated, 2024, 151.20
0041, Corn, 99, Nowhere, ZZ, 001, Alder, 003, Non-Irrigated, 2025, 148.00
`
	file, err := yields.Read(strings.NewReader(text), func(yields.File) error { return nil }, func(y yields.Yield) error {
		fmt.Println(y.County, y.Commodity, y.Practice, y.CropYear, y.Value)
		return nil
	}, func(yields.Month) error { return nil })
	fmt.Println(file.Agency, file.Lines, err)
	// Output:
	// 99001 corn nonirrigated 2024 151.2
	// 99001 corn nonirrigated 2025 148
	// RMA 2 <nil>
}

// NASS ended its yields of all wheat in 2007; its classes are distinguished.
func ExampleItem() {
	commodity, class, practice, ok := yields.Item("WHEAT, WINTER, NON-IRRIGATED - YIELD, MEASURED IN BU / ACRE")
	fmt.Println(commodity, class, practice, ok)
	// Output: wheat winter nonirrigated true
}
