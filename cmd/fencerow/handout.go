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
		Long: `Writes handout.html and handout.xlsx into DIR. They hold one table for the area and
one sheet for each county, crop and practice, all on one price date. COUNTY is
a county's five digits, its name with its State ("Story, Iowa"), or a county file
(docs/formats.md). No farm's data are in them.
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
				asked, counties, err := q.countiesCase(c, args)
				if err != nil {
					return err
				}
				bar := terminal.NewProgress(c.ErrOrStderr(), len(counties), "counties")
				handout, err := explain.MakeHandout(asked, counties, only, bar.Reach)
				bar.Done()
				if err != nil {
					return err
				}
				if err := writeHandout(c.ErrOrStderr(), q.files(q.inputs), out, handout); err != nil {
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
	c.Flags().StringVar(&out, "out", "", "the folder that the sheets go to; made if it is not there")
	c.Flags().StringVar(&commodities, "commodity", "", "only these crops, as corn,soybeans (default: all that the sources have)")
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop years, as 2026 or 2026,2027; the sheets show the first (default: this year)")
	return c
}

// countiesCase is a case of counties without an operation, and their codes. An
// argument is a code, or a county file.
func (q *question) countiesCase(c *cobra.Command, args []string) (asked answer.Question, codes []string, err error) {
	r, err := q.request(c)
	if err != nil {
		return asked, nil, err
	}
	for _, arg := range args {
		if source.IsCountyFile(arg) {
			continue
		}
		if _, fault := countyname.Find("COUNTY", arg); fault != nil {
			return asked, nil, usageError{fault.Reason, fault.Hint}
		}
	}
	r.Counties = args
	found, err := q.found(c, r)
	return found.Question, found.Counties, err
}

// writeHandout writes the sheets and says what it wrote.
func writeHandout(talk io.Writer, files *file.Run, folder string, h explain.Handout) error {
	if len(h.Sheets) == 0 {
		return usageError{"there is no sheet to write: " + strings.Join(append(h.Missing, "no source has a yield of these counties"), "; "), "import FSA's county table (fencerow county import FILE), or name a county file"}
	}
	if err := os.MkdirAll(folder, 0o755); err != nil {
		return usageError{"--out: " + err.Error(), "name a folder that may be written"}
	}
	printed, workings := filepath.Join(folder, "handout.html"), filepath.Join(folder, "handout.xlsx")
	if err := files.Check(printed, workings); err != nil {
		return err
	}
	sheets := report.OfHandout(h)
	if err := written(talk, files, printed, func(w io.Writer) error { return page.Write(w, sheets) }); err != nil {
		return err
	}
	pages := workbook.Pages{Odds: sheets, PastYears: report.OfReplay(h.Replayed), Sources: report.OfSources(h.Workings)}
	if err := written(talk, files, workings, func(w io.Writer) error { return workbook.Write(w, h.Comparison, h.Workings, pages) }); err != nil {
		return err
	}
	for _, missing := range h.Missing {
		fmt.Fprintln(talk, "fencerow: note: no sheet: "+missing)
	}
	return nil
}
