package fit_test

import (
	"slices"
	"testing"

	"fencerow/io/read/builtin"
	"fencerow/io/read/market"
	"fencerow/program/farm"
	"fencerow/sim/backtest"
	"fencerow/sim/fit"
	"fencerow/sim/invented"
)

// The spreads of county yields and the weight of the trend in parameters.csv are what the
// built-in tables give, by base acres, crop years held back left out. Medians of all
// commodities are derived from FSA's yields of all, shares from the four that are scored.
func TestSpreadsAreDerived(t *testing.T) {
	if invented.UnderRace {
		t.Skip("over all counties: in the run without the race detector")
	}
	tables, err := builtin.Past()
	if err != nil {
		t.Fatal(err)
	}
	tables, err = backtest.Completed(tables, market.Builtin())
	if err != nil {
		t.Fatal(err)
	}
	rows := backtest.Derived(tables, market.Builtin())
	spreads := fit.CountySpreads(actualYields(t), fit.HeldBack)
	for _, own := range rows {
		same := func(e fit.Estimate) bool {
			return e.Param == own.Param && e.Commodity == own.Commodity && e.Region == own.Region && e.Key == own.Key
		}
		if i := slices.IndexFunc(spreads, same); i >= 0 && spreads[i].Value != own.Value {
			t.Errorf("%s %s %s: %g of all tables, %g of those scored", own.Param, own.Commodity, own.Region, spreads[i].Value, own.Value)
		}
	}
	rows = slices.DeleteFunc(rows, func(e fit.Estimate) bool {
		return e.Param == "county_yield_cv_median" || e.Param == "county_yield_cv_quantile"
	})
	fit.HoldRows(t, append(rows, spreads...))
	fit.HoldNoOthers(t, spreads)
}

// actualYields are FSA's county yields of all commodities that come with the program.
func actualYields(t *testing.T) []farm.PastRow {
	t.Helper()
	sources, err := builtin.Sources("")
	if err != nil {
		t.Fatal(err)
	}
	var rows []farm.PastRow
	for code, county := range sources[0].Counties {
		for _, y := range county.Yields {
			for cropYear, yield := range y.Actual {
				rows = append(rows, farm.PastRow{PastUnit: farm.PastUnit{County: code, Commodity: y.Commodity, Practice: y.Practice}, CropYear: cropYear, ActualYield: yield})
			}
		}
	}
	return rows
}
