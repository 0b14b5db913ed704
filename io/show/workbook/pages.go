package workbook

import (
	"fmt"
	"strings"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
)

// lineWidth is the longest line of running text, in characters.
const lineWidth = 110

// layPages lays out the parts that are values and text.
func layPages(c answer.Comparison, r Pages) []*sheet {
	pages := []struct {
		title, note string
		report      report.Report
	}{
		{"Odds", notLive(c), r.Odds},
		{"Past years", "Printed on " + c.Today + ": these do not follow the cells of the other sheets.", r.PastYears},
		{"What to sign", "Printed on " + c.Today + ": these do not follow the cells of the other sheets.", r.Standing},
		{"Sources", "", r.Sources},
	}
	var sheets []*sheet
	for _, page := range pages {
		if len(page.report.Blocks) == 0 {
			continue
		}
		s := newSheet(page.title, 34, 16, 16, 16, 16, 16, 16)
		s.line(look{title: true}, page.title)
		if page.note != "" {
			s.line(look{}, page.note)
		}
		s.frozen = len(s.rows)
		for _, block := range page.report.Blocks {
			s.block(block)
		}
		sheets = append(sheets, s)
	}
	return sheets
}

func notLive(c answer.Comparison) string {
	return fmt.Sprintf("Run: today %s, prices of %s, seed %d, %d draws. These figures do not follow the cells of the other sheets.", c.Today, c.Market.AsOf, c.Seed, c.Draws)
}

// block prints one block of a report.
func (s *sheet) block(b report.Block) {
	switch b := b.(type) {
	case report.Sheet:
		s.gap()
	case report.Heading:
		if b.Text == s.title {
			return // the sheet is named so
		}
		s.gap()
		s.line(look{bold: true}, b.Text)
	case report.Text:
		s.running("", string(b))
	case report.List:
		for _, point := range b {
			mark := "- "
			if point.Mark != "" {
				mark = point.Mark + ": "
			}
			s.running(mark, point.Text)
		}
	case report.Table:
		s.table(b)
	}
}

// running prints a text line by line, so that it can be read and printed without
// setting the height of a row.
func (s *sheet) running(mark, text string) {
	for i, line := range wrapped(text, lineWidth) {
		if i == 0 {
			line = mark + line
		} else {
			line = strings.Repeat(" ", len(mark)) + line
		}
		s.line(look{}, line)
	}
}

func (s *sheet) table(t report.Table) {
	if t.Title != "" {
		s.running("", t.Title)
	}
	s.heads(t.Columns...)
	for _, row := range t.Rows {
		s.add(each(row, plain)...)
	}
	for _, note := range t.Notes {
		s.running("", note)
	}
	s.gap()
}

// end closes a sheet with the run and the cautions.
func (s *sheet) end(c answer.Comparison) {
	s.gap()
	s.running("", fmt.Sprintf("Run: today %s, prices of %s, seed %d, %d draws.", c.Today, c.Market.AsOf, c.Seed, c.Draws))
	for _, line := range c.Caution {
		s.running("", line)
	}
}
