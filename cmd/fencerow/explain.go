package main

import (
	"github.com/spf13/cobra"

	"fencerow/io/show/report"
	"fencerow/io/source"
	"fencerow/sim/explain"
)

func newExplain() *cobra.Command {
	var q question
	var farmName, commodity, mya, countyYield string
	c := &cobra.Command{
		Use:   "explain OPERATION --farm F --commodity C --crop-year Y --mya P --county-yield Y",
		Short: "show every step of each program at a given price and county yield, with its paragraph",
		Long: `Works out PLC and ARC-CO for one farm and crop at a national price and county
yield that you give. Each step shows its paragraph of the law. If the base lies in
several counties or has two practices, give each county's yield:

  --county-yield 99001=188,99003:irrigated=201,99003:nonirrigated=110

If the file has plantings with own yields, ARC-IC of the whole farm follows. Give
the price of every crop then:

  --mya corn=4.10,soybeans=10.00
` + exitHelp,
		Example: "  fencerow explain --demo --farm 0417 --commodity corn --crop-year 2026 --mya 4.10 --county-yield 175",
		Args:    atMost(1, "one operation file"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error {
				given, err := source.ParseGiven(mya, countyYield, commodity)
				if err != nil {
					return err
				}
				asked, err := q.caseOf(c, args)
				if err != nil {
					return err
				}
				f, err := source.FindFarm(asked.Operation, farmName)
				if err != nil {
					return err
				}
				k, err := source.FindCommodity(f, commodity)
				if err != nil {
					return err
				}
				if len(asked.CropYears) != 1 {
					return usageError{"explain answers for one crop year", "add --crop-year, for example --crop-year 2026"}
				}
				if err := source.CheckGiven(asked, f, k, given); err != nil {
					return err
				}
				explanation, err := explain.Explain(asked, f, k, asked.CropYears[0], given)
				if err != nil {
					return err
				}
				return shown(c, &q, explanation, report.OfExplanation)
			})
		},
	}
	q.addInput(c)
	c.Flags().StringVar(&farmName, "farm", "", "FSA farm number, or county and number as 99001-0417")
	c.Flags().StringVar(&commodity, "commodity", "", "the crop, in any agency spelling")
	c.Flags().StringVar(&mya, "mya", "", "national price for the marketing year in the crop's unit, or corn=4.10,soybeans=10.00")
	c.Flags().StringVar(&countyYield, "county-yield", "", "county yield: a number, or 99001=188,99003:irrigated=201")
	return c
}
