package sorted_test

import (
	"fmt"
	"os"

	"fencerow/io/batch/sorted"
)

// By text, then the highest number first.
func ExampleLines() {
	lines := sorted.New(os.TempDir())
	defer lines.Close()
	lines.Add("b", 9, "", []string{"last"})
	lines.Add("a", 1, "", []string{"second"})
	lines.Add("a", 2, "", []string{"first"})
	lines.Each(func(cells []string) error { fmt.Println(cells[0]); return nil })
	// Output:
	// first
	// second
	// last
}
