package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/sim/answer"
)

const exitHelp = `
Exit codes: 0 done; 1 a fault of the program; 2 wrong use; 3 the input is wrong
(every mistake is listed with file and line, nothing is written).`

func newCompare() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:   "compare OPERATION",
		Short: "PLC beside ARC-CO: averages, odds, leader and flags for every farm and commodity",
		Long: `Reads an operation file (docs/formats.md) and sets PLC beside ARC-CO for every
farm and commodity: averages, odds, who leads and by how much, what to be warned
of; then each whole farm under every combination, then the whole operation.
` + exitHelp,
		Example: "  fencerow compare --demo\n  fencerow compare operation.yaml --crop-year 2026,2027 --county-table county.xlsx",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				asked, err := q.caseOf(c, args)
				if err != nil {
					return err
				}
				comparison, err := answer.Compare(asked)
				if err != nil {
					return err
				}
				if q.json {
					return printJSON(c.OutOrStdout(), comparison)
				}
				return terminal.Write(c.OutOrStdout(), report.OfComparison(comparison))
			})
		},
	}
	q.addInput(c)
	q.addDraws(c)
	return c
}
