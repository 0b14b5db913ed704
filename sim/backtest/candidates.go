package backtest

import (
	"fencerow/program/crop"
	"fencerow/sim/position"
)

// candidate is another rule of the mean county yield, tried in tests. The zero one is the
// program's rule.
type candidate struct {
	name           string
	weight         *float64 // of the trend, in place of the one that other years give
	mean           func(c *commodityYear, i int, o position.Yield) crop.Yield
	nation         bool // November knows how the nation's yields came out, not the State's
	usualConstants bool // the rows of parameters.csv, also for years they were measured on
	leansOnly      bool // nothing but odds and who leads is worked out, of May and November
}
