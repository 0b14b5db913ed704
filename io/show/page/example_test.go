package page_test

import (
	"fmt"
	"os"
	"strings"

	"fencerow/io/show/page"
	"fencerow/io/show/report"
)

// A report becomes one file; what stands after its styles is the report.
func ExampleWrite() {
	var out strings.Builder
	if err := page.Write(&out, report.Report{Blocks: []report.Block{report.Heading{Level: 1, Text: "Corn & soybeans"}, report.Text("Neither pays.")}}); err != nil {
		fmt.Fprintln(os.Stderr, err)
		return
	}
	_, body, _ := strings.Cut(out.String(), "<main>")
	for _, line := range strings.Split(body, "\n") {
		if strings.HasPrefix(line, "<h1>") || strings.HasPrefix(line, "<p>") {
			fmt.Println(line)
		}
	}
	// Output:
	// <h1>Corn &amp; soybeans</h1>
	// <p>Neither pays.</p>
}
