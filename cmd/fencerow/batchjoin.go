package main

import (
	"errors"
	"fmt"
	"path/filepath"

	"github.com/spf13/cobra"

	"fencerow/io/batch"
)

func newBatchJoin() *cobra.Command {
	var out string
	var asJSON bool
	c := &cobra.Command{
		Use:   "join FOLDER... --out DIR",
		Short: "join the shares of several computers into the results of one run",
		Long: `Reads the folders that batch --part wrote, each with one share or several. It writes
the joined results, people, farms, exceptions and calls, counties.csv, summary.xlsx
and run.json into DIR, as a run in one piece does. Shares of different questions are
refused, and so are shares that are missing, named twice or not ended.
` + exitHelp,
		Example: "  fencerow batch join first second third --out all",
		Args: func(c *cobra.Command, args []string) error {
			if len(args) == 0 {
				return usageError{"no folder is given", "name the folders of all shares"}
			}
			return nil
		},
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				if out == "" {
					return usageError{"--out is missing", "name the folder that the joined results go to"}
				}
				counts, err := batch.Join(args, out)
				switch {
				case errors.Is(err, batch.ErrNotEmpty):
					return usageError{out + ": " + err.Error(), "name an empty or a new folder"}
				case err != nil:
					return err
				case asJSON:
					err = printJSON(c.OutOrStdout(), counts)
				default:
					_, err = fmt.Fprintln(c.OutOrStdout(), countsLine(counts, out))
				}
				if err == nil && counts.Refused > 0 {
					return refusedError{counts.Refused, filepath.Join(out, "refused.csv")}
				}
				return err
			})
		},
	}
	c.Flags().StringVar(&out, "out", "", "the folder that the joined results go to")
	c.Flags().BoolVar(&asJSON, "json", false, "print the counts as JSON (docs/formats.md)")
	return c
}

// countsLine says what a run came to.
func countsLine(counts batch.Counts, out string) string {
	return fmt.Sprintf("%d rows: %d answered, %d refused; %d operations, %d farms, %d results in %s",
		counts.Rows, counts.Answered, counts.Refused, counts.Operations, counts.Farms, counts.Results, out)
}
