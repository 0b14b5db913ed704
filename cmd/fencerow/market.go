package main

import (
	"fmt"
	"io"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/file"
	"fencerow/io/read/book"
	"fencerow/io/read/market"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/program/farm"
	"fencerow/sim/explain"
	"fencerow/sim/position"
)

func newMarket() *cobra.Command {
	c := &cobra.Command{
		Use:   "market",
		Short: "national prices: import newer ones, show them, save them",
		Long: `Past national prices and USDA's projections of September 11, 2026 are built in.
You can import newer ones into the county book, or write them in a market file.
` + exitHelp,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
		Args: cobra.NoArgs,
	}
	c.AddCommand(newMarketImport(), newMarketShow(), newMarketSave())
	return c
}

// marketImport is the JSON of market import.
type marketImport struct {
	Format string              `json:"format"` // fencerow/market-import/1
	Files  []book.Imported     `json:"files"`
	Moved  []explain.PriceMove `json:"moved"`
}

// marketImportFormat names the JSON of a marketImport.
const marketImportFormat = "fencerow/market-import/1"

func newMarketImport() *cobra.Command {
	var q question
	var strict bool
	c := &cobra.Command{
		Use:   "import FILE...",
		Short: "put a month's prices into the book and say what moved",
		Long: `Reads the CSV of a WASDE report and FSA's price tables 1 to 4 (.xlsx). From NASS
Quick Stats it reads prices received and sales by month (United States). A final
price that FSA printed first stays. Of projections and months the newest counts. Then it
says which prices moved.
` + exitHelp + `
4: some files could not be imported, the others are in the book.`,
		Example: "  fencerow market import oce-wasde-report-data-2026-11.csv prices-received.csv",
		Args:    cobra.MinimumNArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error { return q.importPrices(c, args, strict) })
		},
	}
	q.addBook(c)
	c.Flags().BoolVar(&strict, "strict", false, "refuse a file with a line that is not understood")
	return c
}

// importPrices puts files of prices into the book and prints what moved.
func (q *question) importPrices(c *cobra.Command, paths []string, strict bool) error {
	today, err := q.day()
	if err != nil {
		return err
	}
	b, err := disk.NeedBook(q.book, true)
	if err != nil {
		return err
	}
	defer b.Close()
	before, err := source.Prices(b)
	if err != nil {
		return err
	}
	all, left, err := b.ImportAll(paths, today, strict, func(line string) { fmt.Fprintln(c.ErrOrStderr(), "fencerow: "+line) })
	if len(all) == 0 && err == nil && len(left) > 0 {
		err = left
	}
	if err != nil {
		return err
	}
	after, err := source.Prices(b)
	if err != nil {
		return err
	}
	moved := explain.MovedPrices(before, after)
	if q.json {
		err = printJSON(c.OutOrStdout(), marketImport{marketImportFormat, all, moved})
	} else if err = listed(c, q, all, book.Imported.String); err == nil {
		err = terminal.Write(c.OutOrStdout(), report.OfMoved(moved))
	}
	if err != nil || len(left) == 0 {
		return err
	}
	return partlyError{left}
}

// prices are those that an answer rests on where no market file is named.
func (q *question) prices() (farm.Market, error) {
	b, err := disk.OpenBook(q.book, false)
	if err != nil || b == nil {
		return market.Builtin(), err
	}
	defer b.Close()
	return source.Prices(b)
}

func newMarketSave() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:   "save FILE",
		Short: "write today's prices to a market file, so that later imports change no answer",
		Long: `Writes the projections, the months known and the imported final prices, each with
its date and source. With --market FILE every command then answers at these prices,
whatever is imported later. One file serves a series of meetings.
` + exitHelp,
		Example: "  fencerow market save november.yaml\n  fencerow handout 99001 --market november.yaml --out sheets",
		Args:    cobra.ExactArgs(1),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				prices, err := q.prices()
				if err != nil {
					return err
				}
				files := file.NewRun().Keep(!q.force)
				if err := files.Check(args[0]); err != nil {
					return err
				}
				return written(c.ErrOrStderr(), files, args[0], func(w io.Writer) error {
					_, err := w.Write(market.Text(prices))
					return err
				})
			})
		},
	}
	c.Flags().StringVar(&q.book, "book", "", "the county book (default: counties.db in your data folder)")
	addForce(c, &q.force)
	return c
}

func newMarketShow() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:     "show [CROP]",
		Short:   "show each price with its range, date and source, yours next to USDA's",
		Long:    "Lists national prices for crop years: the average, where 8 of 10 outcomes end, and\nwhat each rests on.\n" + exitHelp,
		Example: "  fencerow market show corn --crop-year 2026,2027,2028",
		Args:    atMost(1, "at most one crop"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				commodities, err := commoditiesOf(args)
				if err != nil {
					return err
				}
				asked, _, err := q.countiesCase(c, nil)
				if err != nil {
					return err
				}
				return shown(c, &q, explain.ViewMarket(asked, commodities, position.WithPath(market.Builtin())), report.OfMarket)
			})
		},
	}
	q.addBook(c)
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop years (default: this year)")
	c.Flags().StringVar(&q.market, "market", "", "a market file")
	return c
}
