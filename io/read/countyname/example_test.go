package countyname_test

import (
	"fmt"

	"fencerow/io/read/countyname"
)

// Story County is 19169 in the agencies' tables.
func ExampleFind() {
	for _, text := range []string{"Story County, IA", "19-169", "Stroy, Iowa"} {
		code, fault := countyname.Find("county", text)
		if fault != nil {
			fmt.Println(fault.Reason)
			continue
		}
		fmt.Println(code)
	}
	// Output:
	// 19169
	// 19169
	// county "Stroy, Iowa" is not known in Iowa
}
