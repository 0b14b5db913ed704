package corrections_test

import (
	"fmt"

	"fencerow/io/read/corrections"
)

// A list with one correction, and two releases that ask.
func Example() {
	list, err := corrections.Parse("corrections.yaml", []byte(`format: fencerow/corrections/1
as_of: 2026-12-15
corrections:
  - id: invented-1
    first_wrong: 1.0.0
    fixed_in: 1.0.2
    wrong: The loan rate of a crop was 2.00 dollars. It is 2.20 dollars.
    affects: PLC payments on that crop at prices under 2.20 dollars.
    do: Ask again with release 1.0.2.
`))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, release := range []string{"1.0.1", "1.0.2"} {
		fmt.Println(release, len(list.Of(release)))
	}
	// Output:
	// 1.0.1 1
	// 1.0.2 0
}
