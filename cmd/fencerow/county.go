package main

import (
	"fmt"
	"io"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/read/book"
	"fencerow/io/read/countyname"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program/farm"
	"fencerow/sim/explain"
)

func newCounty() *cobra.Command {
	c := &cobra.Command{
		Use:   "county",
		Short: "the county book: agencies' county yields, imported once",
		Long: `The county book is one file in your data folder (or --book FILE). You import the
agencies' files into it once. Nothing is fetched unless you ask.
` + exitHelp,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
		Args: cobra.NoArgs,
	}
	c.AddCommand(newCountyImport(), newCountyList(), newCountyShow(), newCountyVerify(), newCountyFetch())
	return c
}

func newCountyImport() *cobra.Command {
	var q question
	var strict bool
	c := &cobra.Command{
		Use:   "import FILE...",
		Short: "put agencies' files into the county book",
		Long: `Puts county yields into the book, from these files, packed or not: FSA's ARC-CO
county workbooks (.xlsx), NASS Quick Stats files, RMA's county yields report. A
file is taken whole or not at all. The same file again changes nothing. A newer
edition of a county table replaces the older. Of several files, those that can be
read are taken, and each of the others is named with the reason.
` + exitHelp + `
4: some files could not be imported, the others are in the book.`,
		Example: "  fencerow county import ARCCO_2025.xlsx qs.crops_20260627.txt.gz\n  fencerow county import yields.csv --book counties.db --strict",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				all, left, err := q.importFiles(c.ErrOrStderr(), args, strict)
				if len(all) == 0 && err == nil && len(left) > 0 {
					err = left
				}
				if err != nil {
					return err
				}
				if err := listed(c, &q, all, book.Imported.String); err != nil || len(left) == 0 {
					return err
				}
				return partlyError{left}
			})
		},
	}
	q.addBook(c)
	c.Flags().BoolVar(&strict, "strict", false, "refuse a file with a line that is not understood")
	return c
}

// importFiles puts files into the book.
func (q *question) importFiles(talk io.Writer, paths []string, strict bool) (all []book.Imported, left farm.Mistakes, err error) {
	today, err := q.day()
	if err != nil {
		return nil, nil, err
	}
	b, err := disk.NeedBook(q.book, true)
	if err != nil {
		return nil, nil, err
	}
	defer b.Close()
	return b.ImportAll(paths, today, strict, func(line string) { fmt.Fprintln(talk, "fencerow: "+terminal.OneLine(line)) })
}

// addBook adds the flags of the verbs that only need the book.
func (q *question) addBook(c *cobra.Command) {
	c.Flags().StringVar(&q.book, "book", "", "the county book (default: counties.db in your data folder)")
	c.Flags().StringVar(&q.today, "today", "", "the day you ask on, YYYY-MM-DD (default: the system date)")
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
}

func newCountyList() *cobra.Command {
	var q question
	var files bool
	c := &cobra.Command{
		Use:     "list [STATE]",
		Short:   "list the counties of the book, or with --files the imported files",
		Long:    "Lists the counties of the book with their crops and years. STATE is a name, postal\nletters or two digits. With --files it lists what was imported.\n" + exitHelp,
		Example: "  fencerow county list 19\n  fencerow county list --files --json",
		Args:    atMost(1, "at most one State"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				b, err := disk.NeedBook(q.book, false)
				if err != nil {
					return err
				}
				defer b.Close()
				if files {
					imported, err := b.Files()
					if err != nil {
						return err
					}
					return listed(c, &q, imported, book.File.String)
				}
				state := strings.Join(args, "")
				if code := countyname.State(state); code != "" {
					state = code
				}
				counties, err := b.List(state)
				if err != nil {
					return err
				}
				return listed(c, &q, counties, book.Listed.String)
			})
		},
	}
	q.addBook(c)
	c.Flags().BoolVar(&files, "files", false, "list the imported files")
	return c
}

func newCountyShow() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:     "show COUNTY",
		Short:   "show what is known of one county: yields, benchmarks, trend, what is missing",
		Long:    "Shows the yields of a county by year and agency and its benchmark yields. Shows\nthe trend, how much yields vary, what is known of this year's, and what is missing.\nCOUNTY is the five-digit code, or the county's name with its State (\"Story, Iowa\").\n" + exitHelp,
		Example: "  fencerow county show 99001 --county-table county.xlsx --crop-year 2026",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				code, fault := countyname.Find("COUNTY", args[0])
				if fault != nil {
					return usageError{fault.Reason, fault.Hint}
				}
				asked, _, err := q.countiesCase(c, []string{code})
				if err != nil {
					return err
				}
				return shown(c, &q, explain.ViewCounty(asked, code), report.OfCounty)
			})
		},
	}
	q.addBook(c)
	q.addSources(c)
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop year (default: this year)")
	return c
}
