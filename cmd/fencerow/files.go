package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/file"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
)

// written writes a file whole or not at all, and says so.
func written(talk io.Writer, files *file.Run, path string, write func(io.Writer) error) error {
	err := files.Write(path, write)
	if err == nil {
		fmt.Fprintln(talk, "fencerow: wrote "+terminal.OneLine(path))
	}
	return err
}

// addForce adds the flag that lets outputs replace files.
func (q *question) addForce(c *cobra.Command) {
	c.Flags().BoolVar(&q.force, "force", false, "replace output files that are there; without it they are kept and nothing is written")
}

// files are those of a run: no output is written over its inputs, nor without --force over
// any other file that is there.
func (q *question) files(inputs []source.Input) *file.Run {
	var names []string
	for _, input := range inputs {
		if !q.disk().Has(input.Name) {
			names = append(names, input.Name)
		}
	}
	return file.NewRun(names...).Keep(!q.force)
}
