// Package market reads the state of prices: a market file as a person types
// it, and the national price history that the program carries with it.
//
// It knows the keys of the format fencerow/market/1 and the built-in table. It
// forecasts nothing: a commodity without a projection has none here, and
// sim/answer carries its last price. Start reading at Parse and at Builtin. The
// built-in rows are in builtin.csv and series.csv, their sources in sources.csv;
// source keys are never reused.
package market
