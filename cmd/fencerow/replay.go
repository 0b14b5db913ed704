package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/sim/explain"
)

func newReplay() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:   "replay OPERATION",
		Short: "show what each program paid or would have paid in past crop years",
		Long: `Works out PLC and ARC-CO on this operation's base for every past crop year whose
national price and county yield are known. It uses the rules of the time, and those
of the operation's crop year (the first of --crop-year). Each figure says which. No
total adds the two.
` + exitHelp,
		Example: "  fencerow replay --demo\n  fencerow replay operation.yaml --county-table county2023.xlsx --json",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error { return answered(c, args, &q, explain.Replay, report.OfReplay) })
		},
	}
	q.addInput(c)
	return c
}
