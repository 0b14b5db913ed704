package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/read/farmtable"
	"fencerow/io/show/report"
	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
)

func newCheck() *cobra.Command {
	var q question
	var suggest bool
	c := &cobra.Command{
		Use:     "check OPERATION",
		Short:   "check an operation and raise its flags; no money is computed",
		Long:    "Reads an operation file or a table of farms, with its county and market files.\nLists every mistake with file and line, and raises the flags of every farm. No\nmoney is computed. Write - to read from standard input.\n" + exitHelp,
		Example: "  fencerow check --demo\n  fencerow check operation.yaml --crop-year 2026",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				if suggest {
					return q.suggestColumns(c, args)
				}
				check := func(asked answer.Question) (flag.Checked, error) { return flag.Check(asked), nil }
				return answered(c, args, &q, check, report.OfCheck)
			})
		},
	}
	q.addInput(c)
	c.Flags().BoolVar(&suggest, "suggest-columns", false, "write a columns file for this table, with a comment on each guess, and nothing else")
	return c
}

// suggestColumns prints a columns file for a table.
func (q *question) suggestColumns(c *cobra.Command, args []string) error {
	path, err := q.operationPath(args)
	if err == nil {
		path, err = q.takeInput(c, path)
	}
	if err != nil {
		return err
	}
	if !farmtable.IsTable(path) {
		return usageError{"--suggest-columns needs a table of farms", "name a table (.csv, .xlsx or .parquet)"}
	}
	text, err := source.SuggestColumns(q.disk(), disk.Tables{}, path)
	if err == nil {
		_, err = c.OutOrStdout().Write(text)
	}
	return err
}
