package sheet

import (
	"fencerow/io/show/report"
	"fencerow/sim/answer"
)

// mostMoved is how many lines that moved since an earlier answer a sheet lists.
const mostMoved = 4

// since adds a small block on what changed since an earlier answer; nothing where there is
// none.
func (s *sheets) since(c answer.Comparison) {
	if c.Since == nil {
		return
	}
	y := c.CropYears[0]
	found := report.OfSince(*c.Since, y.CropYear, "", y.Farms, mostMoved)
	s.add(report.Heading{Level: 2, Text: found.Title})
	if len(found.Lines.Rows) > 0 {
		t := found.Lines.Table()
		t.Columns = append([]string{"farm and crop"}, t.Columns[2:]...)
		for i, row := range t.Rows {
			t.Rows[i] = append([]string{row[0] + " " + row[1]}, row[2:]...)
		}
		s.add(t)
	}
	s.add(points(found.Said))
}
