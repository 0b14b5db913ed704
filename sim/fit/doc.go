// Package fit derives constants of the model from the agencies' tables of past years.
//
// It knows prices and yields as they were published, and how an estimate and its standard
// error follow from them. It knows neither files nor the odds of a farm: its tests read the
// tables and hold that the rows of sim/odds/parameters.csv are what the code here derives.
// Outcomes of the crop years that are held back (HeldBack) enter no estimate, so that the
// odds of those years can be scored by others.
//
// Start reading at Estimate, one row to be.
package fit
