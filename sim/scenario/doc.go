// Package scenario makes the prices and county yields of a question, crop year by
// crop year: in every scenario a year follows from those before it, and the
// reference prices, benchmark prices and benchmark yields that the law makes of
// past years are made anew on each path.
//
// It knows distributions (sim/odds) and resolved figures (sim/position); it knows no
// program and no dollars, and nobody who is paid. A year is drawn when it is first
// needed, alike whatever else is asked. Start reading at Paths.Year.
package scenario
