package main

import (
	"errors"
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/read/market"
	"fencerow/io/read/past"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program/farm"
	"fencerow/sim/backtest"
)

// Defaults of score: scenarios per row, and the base acres of a county from which on it is
// counted.
const scoreDraws, scoreLeastBase = 1024, 0

func newScore() *cobra.Command {
	var q question
	var folder string
	var leastBase float64
	c := &cobra.Command{
		Use:   "score --data FOLDER",
		Short: "how the odds of past crop years stood against what came",
		Long: `Asks about every past crop year that the agencies' tables in the folder have, as
it could have been asked in May before harvest and in November after it, and sets
what was said beside what came: chances, averages, intervals, and what following
the leader would have paid against always ARC-CO, always PLC and hindsight. The
files wanted are listed in docs/formats.md. It takes one to two minutes.
` + exitHelp,
		Example: "  fencerow score --data agency-tables",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error {
				if folder == "" {
					return usageError{"no folder of tables is given", "add --data FOLDER; docs/formats.md lists its files"}
				}
				if err := q.checkDraws(); err != nil {
					return err
				}
				if !isAmount(leastBase) {
					return usageError{fmt.Sprintf("--least-base is %v", leastBase), "give base acres from 0 on, such as 2000"}
				}
				tables, err := past.Read(folder)
				if err != nil {
					hint := "correct the line, or fetch the file anew"
					if errors.Is(err, past.ErrMissing) {
						hint = "docs/formats.md says where the agencies publish them"
					}
					return farm.Mistakes{{File: folder, Reason: err.Error(), Hint: hint}}
				}
				setup := backtest.Setup{Past: tables, Market: market.Builtin(), Draws: q.draws, Seed: q.seed, LeastBase: leastBase}
				var bar terminal.Progress
				score, err := backtest.Run(setup, func(done, all int) {
					if done == 1 {
						bar = terminal.NewProgress(c.ErrOrStderr(), all, "past crop years and commodities")
					}
					bar.Reach(done)
				})
				bar.Done()
				if err != nil {
					return err
				}
				return shown(c, &q, score, report.OfScore)
			})
		},
	}
	c.Flags().StringVar(&folder, "data", "", "folder of the agencies' tables")
	c.Flags().Float64Var(&leastBase, "least-base", scoreLeastBase, "count counties with at least so many base acres of the commodity")
	q.addSampling(c, scoreDraws, "at least so many draws per county")
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
	return c
}
