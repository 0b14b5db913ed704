package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

func newBase() *cobra.Command {
	var q question
	factor := 1.0
	c := &cobra.Command{
		Use:   "base OPERATION",
		Short: "work out the new base acres of 2026, step by step",
		Long: `Works out the new base acres of crop year 2026 on every farm. It takes the
plantings of 2019 to 2023 (planted). Crops that are not covered count up to 15
percent of the farm's total acres (total_acres). The base there is comes off. The
rest is shared by plantings. The owner decides on new base, and the notice of the
county office counts.
` + exitHelp,
		Example: "  fencerow base --demo\n  fencerow base operation.yaml --factor 0.85 --json",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				if !(factor > 0 && factor <= 1) {
					return usageError{fmt.Sprintf("--factor is %v", factor), "give the national factor, above 0 and at most 1; without an announcement leave it out"}
				}
				ask := func(asked answer.Question) (explain.NewBases, error) { return explain.NewBase(asked, factor) }
				return answered(c, args, &q, ask, report.OfNewBase)
			})
		},
	}
	q.addInput(c)
	c.Flags().Float64Var(&factor, "factor", 1, "national factor on new base, if one is announced")
	return c
}
