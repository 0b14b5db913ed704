package main

import (
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/file"
	"fencerow/io/show/insurance"
	"fencerow/io/show/page"
	"fencerow/io/show/personal"
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
	sheets         sheets
}

func (o *outputs) add(c *cobra.Command) {
	c.Flags().StringVar(&o.page, "page", "", "write a page for paper and phone, the answer first, to this HTML file")
	o.sheets.add(c)
	c.Flags().StringVar(&o.workbook, "workbook", "", "write a spreadsheet whose sums and odds are live to this .xlsx file")
	c.Flags().BoolVar(&o.changesOnly, "changes-only", false, "in years that need no new election, list only what differs from the last one")
}

// after asks, then writes the files that are wanted. Names that cannot be written are
// refused before.
func (o *outputs) after(c *cobra.Command, q *question, ask func(answer.Question) (answer.Comparison, error)) func(answer.Question) (answer.Comparison, error) {
	return func(asked answer.Question) (answer.Comparison, error) {
		files := q.files(q.inputs)
		names, err := o.names(asked)
		if err == nil {
			err = files.Check(names...)
		}
		if err != nil {
			return answer.Comparison{}, err
		}
		found, err := ask(asked)
		if err != nil {
			return found, err
		}
		return found, o.write(c.ErrOrStderr(), files, asked, found)
	}
}

// names are those that are given, or that --people makes of --page.
func (o *outputs) names(asked answer.Question) (given []string, err error) {
	if err := o.sheets.known(asked.Operation); err != nil {
		return nil, err
	}
	if o.sheets.people != "" {
		_, given, err = pagesOf(asked.Operation, o.page)
	} else if o.page != "" {
		given = append(given, o.page)
	}
	if o.workbook != "" {
		given = append(given, o.workbook)
	}
	return given, err
}

// writePages writes the page of the farms, of one sheet, or of each person.
func (o *outputs) writePages(talk io.Writer, files *file.Run, asked answer.Question, found answer.Comparison) error {
	as := func(name string, laid report.Report) error {
		return written(talk, files, name, func(w io.Writer) error { return page.Write(w, laid) })
	}
	switch one, is := o.sheets.lay(found); {
	case o.page == "":
		return nil
	case is:
		return as(o.page, one)
	case o.sheets.people == "":
		return as(o.page, sheet.Of(found, o.changesOnly))
	}
	ids, names, err := pagesOf(asked.Operation, o.page)
	for i := 0; i < len(ids) && err == nil; i++ {
		err = as(names[i], personal.OfPerson(found, ids[i]))
	}
	return err
}

func (o *outputs) write(talk io.Writer, files *file.Run, asked answer.Question, found answer.Comparison) error {
	if err := o.writePages(talk, files, asked, found); err != nil {
		return err
	}
	if o.workbook == "" {
		return nil
	}
	return written(talk, files, o.workbook, func(w io.Writer) error { return writeBook(w, asked, found, o.changesOnly) })
}

// writeBook writes the spreadsheet of a comparison.
func writeBook(w io.Writer, asked answer.Question, found answer.Comparison, changesOnly bool) error {
	past, err := explain.Replay(asked)
	if err != nil {
		return err
	}
	drawn := asked // what was answered: the same model, as many outcomes
	drawn.Model, drawn.Tail, drawn.Draws = found.Model.Name, found.Model.Tail, found.Draws
	var figures workbook.Figures
	for _, y := range found.CropYears {
		w, err := explain.WorkingsOf(drawn, y.CropYear)
		if err != nil {
			return err
		}
		rows, err := explain.CountyRowsOf(drawn, y.CropYear)
		if err != nil {
			return err
		}
		figures.Workings, figures.Rows = append(figures.Workings, w), append(figures.Rows, rows)
	}
	pages := workbook.Pages{PastYears: past, Standing: report.OfStanding(found, changesOnly), Insurance: report.Report{Blocks: insurance.Of(found, insurance.Options{})}, Sources: report.OfSources(figures.Workings)}
	return workbook.Write(w, found, figures, pages)
}
