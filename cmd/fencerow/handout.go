package main

import (
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/io/file"
	"fencerow/io/read/countyname"
	"fencerow/io/show/page"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/io/show/workbook"
	"fencerow/io/source"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

func newHandout() *cobra.Command {
	var q question
	var out, commodities string
	c := &cobra.Command{
		Use:   "handout COUNTY... --out DIR",
		Short: "write county sheets for a meeting: a page to print and a workbook",
		Long: `Writes handout.html and handout.xlsx into DIR. They hold a cover and one sheet for
each county, crop and practice, all on one price date. The sheets stand by State
and county. COUNTY is a county's five digits, its name with its State ("Story,
Iowa"), or a county file (docs/formats.md). No farm's data are in them. What
only you need to know stands in DIR/handout-notes.txt.
` + exitHelp,
		Example: "  fencerow handout 99001 99003 --out sheets --county-table county.xlsx\n  fencerow handout alder.yaml birch.yaml --out sheets --commodity corn,soybeans",
		Args:    cobra.ArbitraryArgs,
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				switch {
				case len(args) == 0:
					return usageError{"no county is given", "name counties by code or file, such as 99001 alder.yaml"}
				case out == "":
					return usageError{"--out is missing", "name the folder that the sheets go to"}
				}
				only, err := source.ParseCommodities(commodities)
				if err != nil {
					return err
				}
				found, err := q.countiesFound(c, args)
				if err != nil {
					return err
				}
				bar := terminal.NewProgress(c.ErrOrStderr(), len(found.Counties), "counties")
				handout, err := explain.MakeHandout(found.Question, found.Counties, only, bar.Reach)
				bar.Done()
				if err != nil {
					return err
				}
				if err := writeHandout(c.ErrOrStderr(), q.files(q.inputs), out, handout, found.Notes); err != nil {
					return err
				}
				if q.json {
					return printJSON(c.OutOrStdout(), handout)
				}
				_, err = fmt.Fprintf(c.OutOrStdout(), "%d sheets, market %s, in %s\n", len(handout.Sheets), handout.Comparison.Market.AsOf, out)
				return err
			})
		},
	}
	q.addBook(c)
	q.addDraws(c, answer.DefaultDraws)
	q.addSources(c)
	addForce(c, &q.force)
	c.Flags().StringVar(&out, "out", "", "the folder that the sheets go to; made if it is not there")
	c.Flags().StringVar(&commodities, "commodity", "", "only these crops, as corn,soybeans (default: all that the sources have)")
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop years, as 2026 or 2026,2027; the sheets show the first (default: this year)")
	return c
}

// countiesCase is a case of counties without an operation, and their codes.
func (q *question) countiesCase(c *cobra.Command, args []string) (answer.Question, []string, error) {
	found, err := q.countiesFound(c, args)
	return found.Question, found.Counties, err
}

// countiesFound is what is found of counties without an operation. An argument is a code, a
// name, or a county file.
func (q *question) countiesFound(c *cobra.Command, args []string) (found source.Found, err error) {
	r, err := q.request(c)
	if err != nil {
		return found, err
	}
	for _, arg := range args {
		if source.IsCountyFile(arg) {
			continue
		}
		if _, fault := countyname.Find("COUNTY", arg); fault != nil {
			return found, usageError{fault.Reason, fault.Hint}
		}
	}
	r.Counties = args
	return q.found(c, r)
}

// Names of what is written into the folder of a handout.
const handoutPage, handoutBook, handoutNotes = "handout.html", "handout.xlsx", "handout-notes.txt"

// writeHandout writes the sheets, and beside them the notes for whoever made them, and
// says what it wrote and what the notes are about. left are what was left out of the files.
func writeHandout(talk io.Writer, files *file.Run, folder string, h explain.Handout, left []string) error {
	if len(h.Sheets) == 0 {
		return usageError{"there is no sheet to write: " + strings.Join(h.Missing, "; "), "import FSA's county table (fencerow county import FILE), or name a county file"}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return usageError{"--out: " + err.Error(), "name a folder that may be written"}
	}
	printed, workings, notes := filepath.Join(folder, handoutPage), filepath.Join(folder, handoutBook), filepath.Join(folder, handoutNotes)
	if err := files.Check(printed, workings, notes); err != nil {
		return err
	}
	sheets := report.OfHandout(h)
	if err := written(talk, files, printed, func(w io.Writer) error { return page.Write(w, sheets) }); err != nil {
		return err
	}
	pages := workbook.Pages{Sources: report.OfSources(h.Workings)}
	if err := written(talk, files, workings, func(w io.Writer) error { return workbook.WriteCounties(w, h.Comparison, h.Rows, pages) }); err != nil {
		return err
	}
	if err := written(talk, files, notes, func(w io.Writer) error { return terminal.Write(w, report.OfHandoutNotes(h, left)) }); err != nil {
		return err
	}
	told := report.HandoutTalk(h, left)
	for _, line := range told {
		fmt.Fprintln(talk, "fencerow: note: "+line)
	}
	if len(told) > 0 {
		fmt.Fprintln(talk, "fencerow: hint: what to do stands in "+notes)
	}
	return nil
}
