package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
)

func newCheck() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:     "check OPERATION",
		Short:   "reads and validates an operation and raises its flags; computes no money",
		Long:    "Reads an operation file or a table of farms with its county and market files,\nlists every mistake with file and line, and raises the flags of every farm. No\nmoney is computed. - reads from standard input.\n" + exitHelp,
		Example: "  fencerow check --demo\n  fencerow check operation.yaml --crop-year 2026",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				check := func(asked answer.Question) (flag.Checked, error) { return flag.Check(asked), nil }
				return answered(c, args, &q, check, report.OfCheck)
			})
		},
	}
	q.addInput(c)
	return c
}
