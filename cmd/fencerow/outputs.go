package main

import (
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/file"
	"fencerow/io/show/page"
	"fencerow/io/show/report"
	"fencerow/io/show/sheet"
	"fencerow/io/show/workbook"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// outputs are the files that compare writes beside its answer.
type outputs struct {
	page, workbook string
	changesOnly    bool
}

func (o *outputs) add(c *cobra.Command) {
	c.Flags().StringVar(&o.page, "page", "", "write a page for paper and phone, the answer first, to this HTML file")
	c.Flags().StringVar(&o.workbook, "workbook", "", "write a spreadsheet whose sums are live to this .xlsx file")
	c.Flags().BoolVar(&o.changesOnly, "changes-only", false, "in years that need no new election, list only what differs from the last one")
}

// after asks, then writes the files that are wanted. Names that cannot be written are
// refused before.
func (o *outputs) after(c *cobra.Command, q *question, ask func(answer.Question) (answer.Comparison, error)) func(answer.Question) (answer.Comparison, error) {
	return func(asked answer.Question) (answer.Comparison, error) {
		files := q.files(q.inputs)
		if err := files.Check(o.names()...); err != nil {
			return answer.Comparison{}, err
		}
		found, err := ask(asked)
		if err != nil {
			return found, err
		}
		return found, o.write(c.ErrOrStderr(), files, asked, found)
	}
}

// names are those that are given.
func (o *outputs) names() (given []string) {
	for _, name := range []string{o.page, o.workbook} {
		if name != "" {
			given = append(given, name)
		}
	}
	return given
}

func (o *outputs) write(talk io.Writer, files *file.Run, asked answer.Question, found answer.Comparison) error {
	if o.page != "" {
		laid := sheet.Of(found, o.changesOnly)
		if err := written(talk, files, o.page, func(w io.Writer) error { return page.Write(w, laid) }); err != nil {
			return err
		}
	}
	if o.workbook == "" {
		return nil
	}
	past, err := explain.Replay(asked)
	if err != nil {
		return err
	}
	var workings []explain.Workings
	for _, y := range found.CropYears {
		w, err := explain.WorkingsOf(asked, y.CropYear)
		if err != nil {
			return err
		}
		workings = append(workings, w)
	}
	pages := workbook.Pages{Odds: report.OfComparison(found, o.changesOnly), PastYears: report.OfReplay(past), Standing: report.OfStanding(found, o.changesOnly), Sources: report.OfSources(workings)}
	return written(talk, files, o.workbook, func(w io.Writer) error { return workbook.Write(w, found, workings, pages) })
}
