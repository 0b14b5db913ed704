package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/read/market"
	"fencerow/io/show/report"
	"fencerow/sim/explain"
	"fencerow/sim/position"
)

func newMarket() *cobra.Command {
	c := &cobra.Command{
		Use:   "market",
		Short: "national prices: import newer ones, show what an answer rests on",
		Long: `Past national prices and USDA's projections of 11 September 2026 are built in.
Newer ones can be imported into the county book, or written in a market file.
` + exitHelp,
		RunE: func(c *cobra.Command, _ []string) error { return c.Help() },
		Args: cobra.NoArgs,
	}
	importing := newCountyImport()
	importing.Short = "puts FSA's price tables 1 to 4 (.xlsx) and WASDE's CSV into the book"
	importing.Long = "Reads FSA's price tables 1 to 4 (.xlsx) and the CSV of a WASDE report. A final price\nthat FSA printed first stays; of projections the newest counts.\n" + exitHelp
	importing.Example = "  fencerow market import MYA_2025.xlsx oce-wasde-report-data-2026-11.csv"
	c.AddCommand(importing, newMarketShow())
	return c
}

func newMarketShow() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:     "show [COMMODITY]",
		Short:   "each price with its interval, date and source, one's own beside USDA's",
		Long:    "Lists national prices for crop years: the mean, the interval that holds 80 of 100\noutcomes, and what each rests on.\n" + exitHelp,
		Example: "  fencerow market show corn --crop-year 2026,2027,2028",
		Args:    atMost(1, "at most one commodity"),
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
