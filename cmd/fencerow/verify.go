package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
)

func newCountyVerify() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:   "verify [FILE...]",
		Short: "check the county book and the built-in tables: damage, rows that cannot be",
		Long: `Checks the file of the county book, its tables, and every row: no number, year or
word that an agency's file cannot have. Checks the built-in tables by their checksums.
Each agency's FILE that you imported is read once more. Its checksum and its figures
must be those of the book. Nothing is changed.
` + exitHelp,
		Example: "  fencerow county verify\n  fencerow county verify ARCCO_2025.xlsx --book counties.db",
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				found, err := disk.Verify(q.book, args)
				if err != nil {
					return err
				}
				if q.json {
					return printJSON(c.OutOrStdout(), found)
				}
				for _, line := range found.LeftOut() {
					fmt.Fprintln(c.ErrOrStderr(), "fencerow: note: "+line)
				}
				fmt.Fprintln(c.OutOrStdout(), found)
				return nil
			})
		},
	}
	q.addBook(c)
	return c
}
