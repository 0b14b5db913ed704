package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/file"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/program/farm"
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
func addForce(c *cobra.Command, force *bool) {
	c.Flags().BoolVar(force, "force", false, "replace output files that are there; without it they are kept and nothing is written")
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

// filesBeside are those of a run that may not write over one file it reads, nor over what the
// flags name.
func (q *question) filesBeside(read string) *file.Run {
	named := source.Request{Operation: read, Files: q.disk(), CountyFiles: q.countyFiles, CountyTables: q.countyTables, Columns: q.columns, BookName: q.book, Market: q.market}
	return q.files(named.Inputs(farm.Operation{}))
}
