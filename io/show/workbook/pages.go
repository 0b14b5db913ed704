package workbook

import (
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/io/show/workbook/cells"
	"fencerow/sim/answer"
)

// layPages lays out the parts that are values and text.
func layPages(c answer.Comparison, r Pages) []*cells.Sheet {
	pages := []struct {
		title, note string
		report      report.Report
	}{
		{"Where farms stand", notLive, r.Standing},
		{"Area insurance", notLive, r.Insurance},
		{"Sources", "", r.Sources},
	}
	var sheets []*cells.Sheet
	for _, page := range pages {
		if len(page.report.Blocks) == 0 {
			continue
		}
		s := cells.NewSheet(page.title, 34, 16, 16, 16, 16, 16, 16)
		s.Paper.Upright = true
		s.Line(cells.Look{Title: true}, page.title)
		if page.note != "" {
			s.Line(cells.Look{}, page.note)
		}
		s.Frozen = len(s.Rows)
		for _, one := range page.report.Blocks {
			if !closes(one, c) {
				block(s, one)
			}
		}
		const onePage = 90 // rows that can be read on one
		if len(s.Rows) < onePage {
			s.Paper.High = 1
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
func block(s *cells.Sheet, b report.Block) {
	switch b := b.(type) {
	case report.Sheet:
		s.Gap()
	case report.Heading:
		if b.Level == 1 {
			return // the sheet has a title
		}
		s.Gap()
		s.Line(cells.Look{Bold: true}, b.Text)
	case report.Text:
		s.Paragraph(string(b))
	case report.Banner:
		s.Paragraph(string(b))
	case report.Small:
		s.Paragraph(string(b))
	case report.Lead:
		for _, line := range cells.Wrapped(string(b), cells.LineWidth) {
			s.Line(cells.Look{Bold: true}, line)
		}
	case report.Checklist:
		for _, line := range b {
			s.Running("[ ] ", line)
		}
		s.Gap()
	case report.Beside:
		for _, one := range slices.Concat(b.Left, b.Right) {
			block(s, one)
		}
	case report.List:
		for _, point := range b {
			mark := "- "
			if point.Mark != "" {
				mark = point.Mark + ": "
			}
			s.Running(mark, point.Text)
		}
		s.Gap()
	case report.Lines:
		for _, line := range b {
			s.Running("", line)
		}
		s.Gap()
	case report.Grid:
		table(s, b.Table())
	case report.Table:
		table(s, b)
	}
}

func table(s *cells.Sheet, t report.Table) {
	if t.Title != "" {
		s.Running("", t.Title)
	}
	s.Heads(t.Columns...)
	for _, row := range t.Rows {
		made := each(row, func(text string) cells.Cell { return cells.Words(cells.Look{Right: true}, text) })
		made[0].Look.Right = false
		s.Add(made...)
	}
	for _, note := range t.Notes {
		s.Running("", note)
	}
	s.Gap()
}

// ending is how every sheet closes: with the run and the cautions.
func ending(c answer.Comparison) []string { return append([]string{wording.Made(c)}, c.Caution...) }
