package main

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"fencerow/io/show/report"
	"fencerow/io/show/workbook"
	"fencerow/sim/answer"
)

// writeWorkbook writes a comparison as a workbook, whole or not at all.
func writeWorkbook(path string, asked answer.Case, c answer.Comparison, talk io.Writer) error {
	var workings []answer.Workings
	for _, year := range c.CropYears {
		w, err := answer.WorkingsOf(asked, year.CropYear)
		if err != nil {
			return err
		}
		workings = append(workings, w)
	}
	past, err := answer.Replay(asked)
	if err != nil {
		return err
	}
	pages := workbook.Pages{Odds: report.OfComparison(c), PastYears: report.OfReplay(past), ToSign: toSign(c), Sources: report.OfSources(workings)}
	err = replaced(path, func(w io.Writer) error { return workbook.Write(w, c, workings, pages) })
	var place *os.PathError
	if errors.As(err, &place) {
		return usageError{fmt.Sprintf("--workbook is %q, which cannot be written: %v", path, place.Err), "name a file in a folder that is there and open to you"}
	}
	if err == nil {
		fmt.Fprintf(talk, "fencerow: note: the workbook is in %s\n", path)
	}
	return err
}

// replaced writes a file beside path and puts it in its place when it is whole.
func replaced(path string, write func(io.Writer) error) error {
	f, err := os.CreateTemp(filepath.Dir(path), ".fencerow-*.xlsx")
	if err != nil {
		return err
	}
	defer os.Remove(f.Name()) // where it was not renamed
	if err := errors.Join(write(f), f.Chmod(openFile), f.Close()); err != nil {
		return err
	}
	err = os.Rename(f.Name(), path)
	var moved *os.LinkError
	if errors.As(err, &moved) {
		return &os.PathError{Op: "write", Path: path, Err: moved.Err}
	}
	return err
}

// openFile is how a file is usually opened to others.
const openFile = 0o644

// toSign says which election is on record and which program is ahead.
func toSign(c answer.Comparison) report.Report {
	blocks := []report.Block{report.Heading{Level: 1, Text: "What to sign"}}
	for _, year := range c.CropYears {
		table := report.Table{Title: fmt.Sprintf("Crop year %d", year.CropYear), Columns: []string{"farm and commodity", "election on record", "ahead on average"}}
		for _, f := range year.Farms {
			for _, commodity := range f.Commodities {
				record := "none told"
				if commodity.OnRecord != nil {
					record = string(*commodity.OnRecord)
				}
				table.Rows = append(table.Rows, []string{f.Farm + " " + commodity.Commodity.Name(), record, report.Verdict(commodity)})
			}
		}
		blocks = append(blocks, table)
	}
	return report.Report{Blocks: blocks}
}
