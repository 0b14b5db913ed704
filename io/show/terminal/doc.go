// Package terminal prints a report as plain text of 80 columns, readable
// without color. It decides nothing and formats no number. Start reading at
// Write.
package terminal
