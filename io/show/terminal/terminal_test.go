package terminal

import (
	"strings"
	"testing"

	"fencerow/io/show/report"
)

// Long text and a table wider than the line are wrapped at 80 columns; figures
// stay in their column.
func TestWriteKeepsToTheLine(t *testing.T) {
	r := report.Report{Blocks: []report.Block{
		report.Heading{Level: 1, Text: "A heading"},
		report.Text(strings.Repeat("some words ", 20)),
		report.List{{Mark: "warning", Text: strings.Repeat("mind this ", 15)}},
		report.Table{Title: "USD", Columns: []string{"", "on average", "after limit"}, Rows: [][]string{
			{"corn PLC, soybeans ARC-CO, wheat PLC, oats ARC-CO, barley ARC-CO, sorghum PLC", "$12,345.00", "$11,000.00"}, {"short", "$1", "$2"}}},
	}}
	var out strings.Builder
	if err := Write(&out, r); err != nil {
		t.Fatal(err)
	}
	for _, line := range strings.Split(out.String(), "\n") {
		if len(line) > lineWidth {
			t.Errorf("%d columns: %s", len(line), line)
		}
	}
	if !strings.Contains(out.String(), "A heading\n=========\n") || !strings.Contains(out.String(), "- warning: mind this") {
		t.Errorf("heading or list lost:\n%s", out.String())
	}
	if !strings.Contains(out.String(), "short") || !strings.HasSuffix(out.String(), "$1           $2\n") {
		t.Errorf("figures left their column:\n%s", out.String())
	}
}
