// Package backtest puts the odds to past crop years as they could be asked about
// then, and holds them against what came: scores of chances and payments, and what
// following the lead would have paid.
//
// It knows the tables of the past and uses the same rooms as a comparison; nothing
// here enters an answer. Start reading at Run.
package backtest
