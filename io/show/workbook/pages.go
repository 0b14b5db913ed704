package workbook

import (
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
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
		{"Where farms stand", notLive, r.Standing},
		{"Odds", notLive, r.Odds},
		{"Past years", notLive, r.PastYears},
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
			if !closes(block, c) {
				s.block(block)
			}
		}
		sheets = append(sheets, s)
	}
	return sheets
}

// closes reports whether a block is one that end prints on every sheet.
func closes(b report.Block, c answer.Comparison) bool {
	text, is := b.(report.Text)
	return is && (string(text) == wording.Made(c) || strings.HasPrefix(string(text), "Caution. "))
}

// notLive stands at the top of a sheet of values.
const notLive = "These figures do not follow the cells of the other sheets."

// block prints one block of a report.
func (s *sheet) block(b report.Block) {
	switch b := b.(type) {
	case report.Sheet:
		s.gap()
	case report.Heading:
		if b.Level == 1 {
			return // the sheet has a title
		}
		s.gap()
		s.line(look{bold: true}, b.Text)
	case report.Text:
		s.paragraph(string(b))
	case report.Banner:
		s.paragraph(string(b))
	case report.Small:
		s.paragraph(string(b))
	case report.Lead:
		for _, line := range wrapped(string(b), lineWidth) {
			s.line(look{bold: true}, line)
		}
	case report.Checklist:
		for _, line := range b {
			s.running("[ ] ", line)
		}
		s.gap()
	case report.Beside:
		for _, one := range slices.Concat(b.Left, b.Right) {
			s.block(one)
		}
	case report.List:
		for _, point := range b {
			mark := "- "
			if point.Mark != "" {
				mark = point.Mark + ": "
			}
			s.running(mark, point.Text)
		}
		s.gap()
	case report.Table:
		s.table(b)
	}
}

// paragraph prints a text with a gap below.
func (s *sheet) paragraph(text string) {
	s.running("", text)
	s.gap()
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
		cells := each(row, func(text string) cell { return words(look{right: true}, text) })
		cells[0].look.right = false
		s.add(cells...)
	}
	for _, note := range t.Notes {
		s.running("", note)
	}
	s.gap()
}

// end closes a sheet with the run and the cautions.
func (s *sheet) end(c answer.Comparison) {
	s.gap()
	s.running("", wording.Made(c))
	for _, line := range c.Caution {
		s.running("", line)
	}
}
