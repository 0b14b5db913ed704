package workbook_test

import (
	"bytes"
	"fmt"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/report"
	"fencerow/io/show/workbook"
	"fencerow/sim/compare"
	"fencerow/sim/explain"
	"fencerow/sim/invented/cases"
)

// A spreadsheet whose sums are live: somewhere in it stands what it works out anew when a
// figure is changed.
func ExampleWrite() {
	q := cases.Corn()
	q.Draws = 256
	c, err := compare.Answer(q)
	if err != nil {
		fmt.Println(err)
		return
	}
	w, err := explain.WorkingsOf(q, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	rows, err := explain.CountyRowsOf(q, 2026)
	if err != nil {
		fmt.Println(err)
		return
	}
	var out bytes.Buffer
	pages := workbook.Pages{Standing: report.OfStanding(c, false), Sources: report.OfSources([]explain.Workings{w})}
	if err := workbook.Write(&out, c, workbook.Figures{Workings: []explain.Workings{w}, Rows: []explain.CountyRows{rows}}, pages); err != nil {
		fmt.Println(err)
		return
	}
	opened, err := excelize.OpenReader(&out)
	fmt.Println(len(opened.GetSheetList()) > 5, err)
	// Output: true <nil>
}
