package chart_test

import (
	"fmt"
	"strings"

	"fencerow/io/show/chart"
	"fencerow/io/show/report"
)

// 100 outcomes as squares: one svg element, fit to stand in a page, with the same in words for
// those who do not see it.
func ExampleSVG() {
	squares := report.Squares{{Kind: "neither", Count: 60, Words: "60"}, {Kind: "PLC", Count: 40, Words: "40"}}
	svg, err := chart.SVG(squares, "Neither pays in 60 of 100 outcomes.")
	fmt.Println(strings.HasPrefix(svg, "<svg"), strings.HasSuffix(strings.TrimSpace(svg), "</svg>"), strings.Contains(svg, "Neither pays in 60 of 100 outcomes."), err)
	// Output: true true true <nil>
}
