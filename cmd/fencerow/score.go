package main

import (
	"errors"
	"fmt"
	"runtime/debug"

	"github.com/spf13/cobra"

	"fencerow/io/read/builtin"
	"fencerow/io/read/market"
	"fencerow/io/read/past"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program/farm"
	"fencerow/sim/backtest"
)

// Defaults of score: scenarios per row, and the base acres of a county from which on it is
// counted.
const scoreDraws, scoreLeastBase = 256, 0

// fewCollections lets memory grow to four times what is in use, 1.2 GB, which saves a twentieth of the
// minute that scoring takes.
const fewCollections = 300

func newScore() *cobra.Command {
	var q question
	var folder string
	var leastBase float64
	c := &cobra.Command{
		Use:   "score",
		Short: "compare the odds of past crop years with what came",
		Long: `Asks about every past crop year in the agencies' tables, as you could have asked in
May before harvest and in November after it. Then it compares what was said with
what came: chances, averages, ranges. It also shows what following the leader would
have paid, next to always ARC-CO, always PLC and hindsight. It takes about a minute.

The tables are built in (docs/data.md). With --data, those in a folder are read
instead. docs/formats.md lists its files.
` + exitHelp,
		Example: "  fencerow score\n  fencerow score --data agency-tables",
		Args:    cobra.NoArgs,
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error {
				if folder == "" && c.Flags().Changed("data") {
					return usageError{"--data names no folder", "leave it out, or name the folder; docs/formats.md lists its files"}
				}
				if err := q.checkDraws(); err != nil {
					return err
				}
				if !isAmount(leastBase) {
					return usageError{fmt.Sprintf("--least-base is %v", leastBase), "give base acres, 0 or more, such as 2000"}
				}
				tables, err := tablesOfThePast(folder)
				if err != nil {
					return err
				}
				if folder == "" {
					fmt.Fprintln(c.ErrOrStderr(), "fencerow: note: the agencies' tables of past crop years are those that come with the program (docs/data.md)")
				}
				setup := backtest.Setup{Past: tables, Market: market.Builtin(), Draws: q.draws, Seed: q.seed, LeastBase: leastBase}
				debug.SetGCPercent(fewCollections)
				var bar terminal.Progress
				score, err := backtest.Run(setup, func(done, all int) {
					if done == 1 {
						bar = terminal.NewProgress(c.ErrOrStderr(), all, "past crop years and crops")
					}
					bar.Reach(done)
				})
				bar.Done()
				if errors.Is(err, backtest.ErrNothingToTest) {
					return usageError{err.Error(), "give a lower --least-base, or a folder that has both"}
				}
				if err != nil {
					return err
				}
				return shown(c, &q, score, report.OfScore)
			})
		},
	}
	c.Flags().StringVar(&folder, "data", "", "folder of the agencies' tables, instead of the built-in ones")
	c.Flags().Float64Var(&leastBase, "least-base", scoreLeastBase, "count counties with at least this many base acres of the crop")
	q.addSampling(c, scoreDraws, "how many outcomes to try for each county")
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
	return c
}

// tablesOfThePast reads the agencies' tables from a folder, "": those that are built in.
func tablesOfThePast(folder string) (farm.Past, error) {
	if folder == "" {
		tables, err := builtin.Past()
		if err != nil {
			return tables, err
		}
		return backtest.Completed(tables, market.Builtin())
	}
	tables, err := past.Read(folder)
	if err == nil {
		return tables, nil
	}
	hint := "correct the line, or fetch the file again"
	if errors.Is(err, past.ErrMissing) {
		hint = "docs/formats.md says where the agencies publish them"
	}
	return tables, farm.Mistakes{{File: folder, Reason: err.Error(), Hint: hint}}
}
