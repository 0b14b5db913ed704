package workbook

import (
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
)

// Every block of a report that has words stands on its sheet; a picture is left out, whose
// words stand beside it.
func TestEveryBlockIsOnItsSheet(t *testing.T) {
	r := report.Report{Blocks: []report.Block{
		report.Heading{Level: 2, Text: "a heading"}, report.Text("a text"), report.Banner("a banner"), report.Small("a small note"), report.Lead("a lead"),
		report.Checklist{"to check"}, report.List{{Mark: "warning", Text: "a point"}},
		report.Beside{Left: []report.Block{report.Text("the left")}, Right: []report.Block{report.Table{Title: "the right", Columns: []string{"head"}, Rows: [][]string{{"cell"}}, Notes: []string{"a note"}}}},
	}}
	sheets := layPages(answer.Comparison{}, Pages{Standing: r})
	if len(sheets) != 1 {
		t.Fatalf("%d sheets, want 1", len(sheets))
	}
	var all []string
	for _, row := range sheets[0].Rows {
		for _, c := range row {
			text, _ := c.Value.(string)
			all = append(all, text)
		}
	}
	text := strings.Join(all, "\n")
	for _, want := range []string{"a heading", "a text", "a banner", "a small note", "a lead", "[ ] to check", "warning: a point", "the left", "the right", "head", "cell", "a note"} {
		if !strings.Contains(text, want) {
			t.Errorf("%q is not on the sheet:\n%s", want, text)
		}
	}
}
