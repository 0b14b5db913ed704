package chart_test

import (
	"fmt"
	"math"
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

// What two programs could pay: each of four dots stands for 25 of 100 outcomes.
func ExampleSVG_dots() {
	dots := report.Dots{
		{Name: "ARC-CO", Values: []float64{0, 20, 40, 60}, Average: 30, AverageText: "$30", Most: 60, MostText: "$60"},
		{Name: "PLC", Values: []float64{0, 0, 0, 24}, Average: 6, AverageText: "$6", Most: 80, MostText: "$80"},
	}
	svg, err := chart.SVG(dots, "ARC-CO pays nothing in 25 of 100 outcomes, PLC in 75.")
	fmt.Println(strings.Count(svg, "<circle"), strings.Contains(svg, ">one dot: 25 of 100 outcomes<"), err)
	// Output: 8 true <nil>
}

// Who is ahead at which price: PLC below $3.20, neither pays above it.
func ExampleSVG_priceLine() {
	line := report.PriceLine{
		Segments: []report.PriceSegment{{Ahead: "PLC more", To: 3.2, ToText: "$3.20"}, {Ahead: "neither pays", To: math.Inf(1)}},
		At:       4.55, AtText: "$4.55", Low: 4.15, LowText: "$4.15", High: 4.97, HighText: "$4.97", Unit: "dollars a bushel",
	}
	svg, err := chart.SVG(line, "Below $3.20 PLC pays more.")
	width, _ := chart.Size(line) // 330 pixels of three quarters of a point
	fmt.Println(strings.Contains(svg, ">price used $4.55<"), width, err)
	// Output: true 247.5 <nil>
}
