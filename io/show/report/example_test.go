package report_test

import (
	"fmt"

	"fencerow/io/show/report"
	"fencerow/program/crop"
	"fencerow/sim/compare"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// A report of the law's figures for corn of 2026; terminal, page and workbook show it. The
// effective reference price is 4.42, 88 percent of the Olympic average of 4.53, 6.00, 6.54, 4.55, 4.24.
func ExampleOfRules() {
	rules, err := explain.RulesOf(invented.Market("2026-11-10"), crop.Corn, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, block := range report.OfRules([]explain.Rules{rules}).Blocks {
		if t, is := block.(report.Table); is {
			fmt.Println(t.Rows[1][0], t.Rows[1][1])
		}
	}
	// Output: 2. effective reference price 4.42
}

// A report of a farm's payments step by step begins with its title.
func ExampleOfExplanation() {
	q := cases.Corn()
	e, err := explain.Explain(q, q.Operation.Farms[0], crop.Corn, 2026, explain.Given{MYA: 4.00, CountyYield: explain.CountyYields{{}: 190}})
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(report.OfExplanation(e).Blocks[0].(report.Heading).Text)
	// Output: Farm 0417, corn, crop year 2026: step by step
}

// The answer to the main question as people read it: its title names both programs, and every
// farm has a heading.
func ExampleOfComparison() {
	q := cases.Corn()
	q.Draws = 256
	c, err := compare.Answer(q)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, block := range report.OfComparison(c, false).Blocks {
		if h, is := block.(report.Heading); is && h.Level < 4 {
			fmt.Println(h.Text)
		}
	}
	// Output:
	// PLC and ARC-CO side by side, crop year 2026
	// Crop year 2026
	// Farm 0417, Alder County, crop year 2026
	// The whole operation, crop year 2026
}
