package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/sim/answer"
)

func newCheck() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:     "check OPERATION",
		Short:   "reads and validates an operation and raises its flags; computes no money",
		Long:    "Reads an operation file with its county and market files, lists every mistake\nwith file and line, and raises the flags of every farm. No money is computed.\n" + exitHelp,
		Example: "  fencerow check --demo\n  fencerow check operation.yaml --crop-year 2026",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				asked, err := q.caseOf(c, args)
				if err != nil {
					return err
				}
				checked := answer.Check(asked)
				if q.json {
					return printJSON(c.OutOrStdout(), checked)
				}
				return terminal.Write(c.OutOrStdout(), report.OfCheck(checked))
			})
		},
	}
	q.addInput(c)
	return c
}
