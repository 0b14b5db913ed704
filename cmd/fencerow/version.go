package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/about"
)

// A release sets these when it is built: its version, as 1.0.0, its date, as 2026-12-01, and
// the commit it is made from.
var version, released, commit = "development", "", ""

func newVersion() *cobra.Command {
	var q question
	var list string
	c := &cobra.Command{
		Use:   "version",
		Short: "show the version and the dates of the built-in data; look it up in a list of corrections",
		Long: `Shows the version, the commit and the dates of the law, prices and county tables that
are built in. With --check FILE it reads a list of corrections (docs/corrections.md). It says
whether this version gave a wrong figure, which one, and what to do. FILE is read from
this computer. Nothing is fetched.
` + exitHelp,
		Example: "  fencerow version\n  fencerow version --check corrections.yaml",
		Args:    atMost(0, "no arguments"),
		RunE: func(c *cobra.Command, _ []string) error {
			return work(func() error {
				v := about.Of(version, released, commit)
				if list != "" {
					if err := v.CheckBy(list); err != nil {
						return err
					}
				}
				if q.json {
					return printJSON(c.OutOrStdout(), v)
				}
				return v.Write(c.OutOrStdout())
			})
		},
	}
	c.Flags().StringVar(&list, "check", "", "a list of corrections (docs/corrections.yaml of a newer version)")
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
	return c
}
