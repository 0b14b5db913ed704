package summary_test

import (
	"fmt"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/summary"
	"fencerow/io/show/terminal"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
)

// firstLines are the first lines of a layout of an answer about one farm of 120 corn base
// acres, as a terminal shows them.
func firstLines(n int, lay func(answer.Comparison) report.Report) string {
	q := cases.Corn()
	q.Draws = 256
	c, err := compare.Answer(q)
	if err != nil {
		return err.Error()
	}
	var out strings.Builder
	if err := terminal.Write(&out, lay(c)); err != nil {
		return err.Error()
	}
	return strings.Join(strings.Split(out.String(), "\n")[:n], "\n")
}

// The answer begins with what is compared, and what each program pays on.
func ExampleOf() {
	fmt.Println(firstLines(2, func(c answer.Comparison) report.Report { return summary.Of(c, false) }))
	// Output:
	// PLC or ARC-CO for 2026. Prices of November 10, 2026 (test prices).
	// PLC pays on a low national price, ARC-CO on a low county yield times that price.
}

// One farm in full begins with its name, its county, the crop year and the day of its prices.
func ExampleOfFarm() {
	fmt.Println(firstLines(1, func(c answer.Comparison) report.Report { return summary.OfFarm(c, "99001-0417") }))
	// Output:
	// Farm 0417, Alder County, 2026. Prices of November 10, 2026 (test prices).
}
