package main

import (
	"embed"
	"fmt"
	"io/fs"
	"os"

	"github.com/spf13/cobra"

	"fencerow/io/read/farmfile"
	"fencerow/io/read/lines"
	"fencerow/io/read/table"
	"fencerow/io/source"
	"fencerow/program/farm"
)

//go:embed demo
var demoFiles embed.FS

// found reads what a request names, with the county book of --book, and tells what was
// noted.
func (q *question) found(c *cobra.Command, r source.Request) (source.Found, error) {
	b, err := openBook(q.book, false)
	if err != nil {
		return source.Found{}, err
	}
	if b != nil {
		defer b.Close()
		r.Book = b
	}
	found, err := source.Question(r)
	for _, note := range found.Notes {
		fmt.Fprintln(c.ErrOrStderr(), "fencerow: note: "+note)
	}
	return found, err
}

// disk has the files of the disk by the names that people write, and before them those
// of the demo where it is asked about.
type disk struct{ demo bool }

// Open opens a file.
func (d disk) Open(name string) (fs.File, error) {
	if d.demo {
		if file, err := demoFiles.Open(name); err == nil {
			return file, nil
		}
	}
	return os.Open(name)
}

// ReadDir lists a folder of the disk by name.
func (disk) ReadDir(name string) ([]fs.DirEntry, error) { return os.ReadDir(name) }

// ReadFile refuses what is not a file of reasonable size before reading it.
func (d disk) ReadFile(name string) ([]byte, error) {
	if d.demo {
		if text, err := demoFiles.ReadFile(name); err == nil {
			return text, nil
		}
	}
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if info.IsDir() || info.Size() > mostBytes {
		return nil, &fs.PathError{Op: "read", Path: name, Err: fmt.Errorf("not a file of at most %d bytes", mostBytes)}
	}
	return os.ReadFile(name)
}

// mostBytes is the largest text file that is read.
const mostBytes = 16 << 20

// tables reads spreadsheets and Parquet files from the disk.
type tables struct{}

// Lines opens a table of farms.
func (tables) Lines(name string) (lines.Lines, []string, error) { return farmfile.Lines(name) }

// County returns the agency's county table.
func (tables) County(name string) (found farm.CountySource, notes []string, err error) {
	found, left, err := table.Read(name)
	for _, n := range left {
		where := name
		if n.Line > 0 {
			where += fmt.Sprintf(" line %d", n.Line)
		}
		notes = append(notes, fmt.Sprintf("%s: %s: %s", where, n.Reason, n.Text))
	}
	return found, notes, err
}
