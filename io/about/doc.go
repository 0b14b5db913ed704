// Package about is what the program says of itself: its version, the days of the law, prices
// and tables that are built in, and what a list of corrections says of its version.
//
// It must not know the command line, and fetches nothing. Start reading at Of.
package about
