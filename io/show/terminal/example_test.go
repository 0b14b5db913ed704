package terminal_test

import (
	"os"

	"fencerow/io/show/report"
	"fencerow/io/show/terminal"
	"fencerow/program/farm"
)

// A report as text of at most 80 characters a line.
func ExampleWrite() {
	terminal.Write(os.Stdout, report.Report{Blocks: []report.Block{
		report.Heading{Level: 2, Text: "Crop year 2026"},
		report.Text("Neither pays."),
		report.Table{Columns: []string{"commodity", "PLC", "ARC-CO"}, Rows: [][]string{{"corn", "0.00", "0.00"}}},
	}})
	// Output:
	// Crop year 2026
	// ==============
	//
	// Neither pays.
	//
	//   commodity      PLC  ARC-CO
	//   corn          0.00    0.00
}

// Mistakes of a file: what, where, and what to do.
func ExampleWriteMistakes() {
	terminal.WriteMistakes(os.Stdout, farm.Mistakes{{File: "farms.csv", Line: 14, Reason: "corn base acres is -20", Hint: "copy base acres from the farm record"}})
	// Output:
	// fencerow: error: farms.csv line 14: corn base acres is -20
	// fencerow: hint: copy base acres from the farm record
}
