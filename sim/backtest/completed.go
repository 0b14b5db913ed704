package backtest

import (
	"fmt"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/position"
)

// Completed returns the tables with what the law and the national prices give of a county's
// yields, in rows that lack it as the built-in ones do: price, benchmark revenue and payment
// rate of ARC-CO. Rows that have a benchmark revenue stay as they are, and so does past. A
// crop year without a price or without terms of law is an error.
//
// The agency's own figures are the same in every row of the commodities scored:
// docs/validation.md.
func Completed(past farm.Past, market farm.Market) (farm.Past, error) {
	type commodityYear struct {
		commodity crop.Commodity
		cropYear  crop.CropYear
	}
	nationals := map[commodityYear]position.National{}
	past.Rows = slices.Clone(past.Rows)
	for i := range past.Rows {
		row := &past.Rows[i]
		if row.BenchmarkRevenue != 0 {
			continue
		}
		mya, known := market.Price(row.Commodity, row.CropYear)
		k := commodityYear{row.Commodity, row.CropYear}
		n, has := nationals[k]
		if !has {
			var err error
			if n, err = position.NationalOf(market, row.Commodity, row.CropYear); err != nil {
				return past, err
			}
			nationals[k] = n
		}
		if !known || n.Missing != "" {
			return past, fmt.Errorf("crop year %d of %s cannot be scored: a national price of it or of its benchmark is not known", row.CropYear, row.Commodity.Name())
		}
		coverage := n.Terms.ARCCO(row.BenchmarkYield, n.BenchmarkPrice.Value)
		actual := program.ActualRevenue(row.ActualYield, program.ActualPrice(mya.Value, n.Terms.LoanRate))
		row.MYA, row.BenchmarkRevenue, row.Rate = mya.Value, coverage.BenchmarkRevenue, coverage.Rate(actual)
	}
	return past, nil
}
