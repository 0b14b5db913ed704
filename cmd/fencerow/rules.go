package main

import (
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"fencerow/io/disk"
	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/sim/explain"
)

func newRules() *cobra.Command {
	var q question
	c := &cobra.Command{
		Use:     "rules [CROP]",
		Short:   "list the figures of the law for a crop and crop year, with status and citation",
		Long:    "Lists the figures of the law in force for one crop, or for all, in a crop year,\neach with its status and citation.\n" + exitHelp,
		Example: "  fencerow rules corn --crop-year 2026\n  fencerow rules --crop-year 2025 --json",
		Args:    atMost(1, "at most one crop"),
		RunE: func(c *cobra.Command, args []string) error {
			return work(func() error { return q.rules(c, args) })
		},
	}
	c.Flags().StringVar(&q.cropYears, "crop-year", "", "crop year (default: this year)")
	c.Flags().StringVar(&q.market, "market", "", "a market file, used before the built-in prices")
	c.Flags().BoolVar(&q.json, "json", false, "print JSON (docs/formats.md)")
	return c
}

// commoditiesOf returns the commodity that is named, or all where none is.
func commoditiesOf(args []string) ([]crop.Commodity, error) {
	if len(args) == 0 {
		return crop.Commodities(), nil
	}
	k, known := crop.ParseCommodity(args[0])
	if !known {
		return nil, usageError{fmt.Sprintf("unknown crop %q", args[0]), "it can be " + strings.Trim(strings.Join(strings.Fields(fmt.Sprint(crop.Commodities())), ", "), "[]")}
	}
	return []crop.Commodity{k}, nil
}

// rules prints the rules of the commodities asked about.
func (q *question) rules(c *cobra.Command, args []string) error {
	years, err := source.ParseCropYears(q.cropYears)
	if err != nil {
		return err
	}
	commodities, err := commoditiesOf(args)
	if err != nil {
		return err
	}
	today, err := q.day()
	if err != nil {
		return err
	}
	found, err := source.Question(source.Request{Files: disk.Files{}, Market: q.market, CropYears: years, Today: today})
	if err != nil {
		return err
	}
	var all []explain.Rules
	for _, y := range found.Question.CropYears {
		for _, k := range commodities {
			rules, err := explain.RulesOf(found.Question.Market, k, y)
			if err != nil && len(args) == 0 {
				continue // seed cotton before 2018 is not covered
			}
			if err != nil {
				return err
			}
			all = append(all, rules)
		}
	}
	switch {
	case q.json && len(all) == 1:
		return printJSON(c.OutOrStdout(), all[0])
	case q.json:
		return printJSON(c.OutOrStdout(), all)
	}
	return terminal.Write(c.OutOrStdout(), report.OfRules(all))
}
