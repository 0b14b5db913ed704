package main

import (
	"embed"
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/source"
)

//go:embed demo
var demoFiles embed.FS

// disk has the files of the disk, and before them those of the demo or standard input
// where they are asked about.
func (q *question) disk() disk.Files {
	if q.demo {
		return disk.Files{BuiltIn: demoFiles}
	}
	if q.given.Name != "" {
		return disk.Files{BuiltIn: q.given}
	}
	return disk.Files{}
}

// found reads what a request names, with the county book of --book, and tells what was
// noted.
func (q *question) found(c *cobra.Command, r source.Request) (source.Found, error) {
	b, err := disk.OpenBook(q.book, false)
	if err != nil {
		return source.Found{}, err
	}
	if b != nil {
		defer b.Close()
		r.Book, r.BookName = b, b.Path()
	}
	found, err := source.Question(r)
	q.inputs = found.Inputs
	for _, note := range found.Notes {
		fmt.Fprintln(c.ErrOrStderr(), "fencerow: note: "+note)
	}
	return found, err
}
