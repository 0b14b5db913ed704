package pages_test

import (
	"fmt"

	"fencerow/io/batch/pages"
)

// Names of files hold a place, so that no two are alike, and nothing of a name that a system
// would not take.
func ExampleName() {
	fmt.Println(pages.Name(7, "Ash & Sons, Inc."))
	fmt.Println(pages.Name(8, "../../ash"))
	fmt.Println(pages.Name(9, "Äß"))
	// Output:
	// 00007-Ash-Sons-Inc.html
	// 00008-ash.html
	// 00009.html
}
