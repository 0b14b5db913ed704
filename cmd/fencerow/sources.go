package main

import (
	"embed"
	"fmt"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/show/terminal"
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
	closeBook, err := q.openBook(&r)
	if err != nil {
		return source.Found{}, err
	}
	defer closeBook()
	return q.read(c, r)
}

// openBook opens the county book of --book for a request.
func (q *question) openBook(r *source.Request) (closeBook func(), err error) {
	b, err := disk.OpenBook(q.book, false)
	if err != nil || b == nil {
		return func() {}, err
	}
	r.Book, r.BookName = b, b.Path()
	return func() { b.Close() }, nil
}

// read reads what a request names and tells what was noted.
func (q *question) read(c *cobra.Command, r source.Request) (source.Found, error) {
	found, err := source.Question(r)
	q.inputs = found.Inputs
	for _, note := range found.Notes {
		fmt.Fprintln(c.ErrOrStderr(), "fencerow: note: "+terminal.OneLine(note))
	}
	return found, err
}
