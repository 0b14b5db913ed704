package workbook

import (
	"bytes"
	"slices"
	"testing"

	"fencerow/io/show/report"
)

// Area insurance has a sheet of its own where a report of it is given, grids and lines among
// its blocks; else there is none.
func TestInsuranceSheet(t *testing.T) {
	const name = "Area insurance"
	a := ask(t, testCase())
	if slices.Contains(a.workbook(t).GetSheetList(), name) {
		t.Errorf("%s without insurance", name)
	}
	pages := a.pages()
	pages.Insurance = report.Report{Blocks: []report.Block{report.Heading{Level: 3, Text: "Farm 0417"}, report.Lines{"In 31 of 100 outcomes both pay."},
		report.Grid{Title: []string{"Dollars."}, Columns: []report.Column{{Head: "program", Left: true}, {Over: "average", Head: "an\nacre"}}, Rows: [][]string{{"PLC with SCO", "$12.34"}}}}}
	var buffer bytes.Buffer
	if err := Write(&buffer, a.comparison, a.Figures, pages); err != nil {
		t.Fatal(err)
	}
	rows, err := opened(t, buffer.Bytes()).GetRows(name)
	if err != nil {
		t.Fatal(err)
	}
	var all []string
	for _, row := range rows {
		all = append(all, row...)
	}
	for _, want := range []string{name, notLive, "Farm 0417", "In 31 of 100 outcomes both pay.", "Dollars.", "program", "average an acre", "PLC with SCO", "$12.34"} {
		if !slices.Contains(all, want) {
			t.Errorf("lacks %q: %q", want, all)
		}
	}
}
