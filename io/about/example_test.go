package about_test

import (
	"fmt"

	"fencerow/io/about"
)

// What a release says of itself.
func Example() {
	v := about.Of("1.0.0", "2026-12-01", "0123abc")
	fmt.Println(v.Version, v.Commit, v.Prices.AsOf, v.Tables[len(v.Tables)-1].Edition)
	// Output: 1.0.0 0123abc 2026-09-11 2025-05-12
}
