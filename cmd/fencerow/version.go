package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/read/market"
	"fencerow/io/source"
)

// A release sets these when it is built: its version, as 1.0.0, and its date, as 2026-12-01.
var version, released = "development", ""

func newVersion() *cobra.Command {
	return &cobra.Command{
		Use:     "version",
		Short:   "show the program's version and the dates of its built-in data",
		Example: "  fencerow version",
		Args:    atMost(0, "no arguments"),
		RunE: func(c *cobra.Command, _ []string) error {
			first, last := source.LawYears()
			prices := market.Builtin()
			_, err := fmt.Fprintf(c.OutOrStdout(), "fencerow %s\nlaw: crop years %d to %d\nprices: %s, %s\n", version, first, last, prices.AsOf.Format(dateLayout), prices.Source)
			return err
		},
	}
}
