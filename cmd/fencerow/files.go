package main

import (
	"fmt"
	"io"

	"fencerow/io/file"
	"fencerow/io/source"
	"fencerow/program/farm"
)

// written writes a file whole or not at all, and says so.
func written(talk io.Writer, files *file.Run, path string, write func(io.Writer) error) error {
	err := files.Write(path, write)
	if err == nil {
		fmt.Fprintln(talk, "fencerow: wrote "+path)
	}
	return err
}

// files are those of a run about an operation: no output is written over its inputs.
func (q *question) files(args []string, o farm.Operation) *file.Run {
	if q.demo {
		return q.filesBeside()
	}
	named := append([]string{}, args...)
	for _, path := range args {
		for _, name := range append(nonEmpty(o.MarketFile), o.CountyFiles...) {
			named = append(named, source.Beside(path, name))
		}
	}
	return q.filesBeside(named...)
}

// filesBeside are those of a run whose flags name inputs beside these.
func (q *question) filesBeside(inputs ...string) *file.Run {
	for _, more := range [][]string{q.countyFiles, q.countyTables, nonEmpty(bookPath(q.book)), nonEmpty(q.market)} {
		inputs = append(inputs, more...)
	}
	return file.NewRun(inputs...)
}
