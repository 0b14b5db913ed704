package terminal

import (
	"strings"
	"testing"

	"fencerow/io/show/report"
)

// Heads that columns share stand over the first of them, text columns stand left, and what
// does not fit the line is closed up, then broken at spaces.
func TestWriteGrid(t *testing.T) {
	grid := report.Grid{
		Title:   []string{"A title."},
		Columns: []report.Column{{Head: "crop", Left: true, Wraps: true}, {Over: "of 100, more:", Head: "ARC-CO"}, {Over: "of 100, more:", Head: "PLC"}, {Head: "last\nelected", Left: true}},
		Rows:    [][]string{{"corn", "62", "2", "PLC"}},
		Notes:   []string{"a note"},
	}
	var out strings.Builder
	if err := Write(&out, report.Report{Blocks: []report.Block{grid, report.Lines{"One line.", strings.Repeat("many words ", 9)}}}); err != nil {
		t.Fatal(err)
	}
	const want = "A title.\n      of 100,\n      more:        last\ncrop  ARC-CO  PLC  elected\ncorn      62    2  PLC\na note\n\nOne line.\nmany words many words many words many words many words many words many words\n  many words many words\n"
	if out.String() != want {
		t.Errorf("%s\nwant\n%s", out.String(), want)
	}
	grid.Rows[0][0] = "temperate japonica rice of a very long name indeed that goes on and on over eighty columns"
	out.Reset()
	if err := Write(&out, report.Report{Blocks: []report.Block{grid}}); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if len(line) > lineWidth {
			t.Errorf("%d columns: %s", len(line), line)
		}
	}
	if !strings.Contains(out.String(), "PLC\n") || strings.Count(out.String(), "\n") != 7 {
		t.Errorf("a long cell is broken into two lines:\n%s", out.String())
	}
}
