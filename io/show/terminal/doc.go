// Package terminal prints a report as plain text of 80 columns, readable without color,
// and what goes to standard error: mistakes and bars of progress. It decides nothing and
// formats no number of an answer. Start reading at Write.
package terminal
