package page

import (
	_ "embed"
	"fmt"
	"io"
	"strings"

	"fencerow/io/show/chart"
	"fencerow/io/show/report"
)

// pageHead is a page up to its first sheet, without its title.
//
//go:embed page.html
var pageHead string

// document is a report by sheets. Text is escaped where it is printed; html/template is not
// used, since any program with it keeps every method of every type (10 MB here).
type document struct {
	Title  string
	Sheets []sheet
}

type sheet struct {
	Name   string
	Corner string
	Style  string // CSS
	Blocks []block
}

// block is a block of a report, drawn where it is a picture. Pictures that follow each
// other are one row.
type block struct {
	Text     report.Block // nil for pictures
	Table    *table
	Pictures []picture
	Columns  [][]block // left and right
}

type table struct {
	report.Table
	Name string // read aloud
}

type picture struct {
	Question      string
	SVG           string  // markup
	Style         string  // CSS
	width, height float64 // points
}

// Write prints a report, each of its sheets from a new piece of paper on. The error is
// that of a picture, or of w.
func Write(w io.Writer, r report.Report) error {
	d, err := documentOf(r)
	if err != nil {
		return err
	}
	_, err = io.WriteString(w, d.markup())
	return err
}

// Body returns the sheets of a report as Write prints them, to stand in another page that
// has Style.
func Body(r report.Report) (string, error) {
	d, err := documentOf(r)
	if err != nil {
		return "", err
	}
	var m markup
	m.sheets(d)
	return m.String(), nil
}

// Style is the style of the pages that Write prints, as CSS.
func Style() string {
	_, rest, _ := strings.Cut(pageHead, "<style>")
	style, _, _ := strings.Cut(rest, "</style>")
	return style
}

// documentOf parts a report into its sheets.
func documentOf(r report.Report) (document, error) {
	d := document{Sheets: []sheet{{}}}
	for _, b := range r.Blocks {
		if next, is := b.(report.Sheet); is {
			d.Sheets = append(d.Sheets, sheet{Corner: next.Corner})
			continue
		}
		if h, is := b.(report.Heading); is && d.Title == "" {
			d.Title = h.Text
		}
		last := &d.Sheets[len(d.Sheets)-1]
		if h, is := b.(report.Heading); is && last.Name == "" {
			last.Name = h.Text
		}
		blocks, err := last.with(last.Blocks, b)
		if err != nil {
			return d, err
		}
		last.Blocks = blocks
	}
	for i := range d.Sheets {
		d.Sheets[i].Style = d.Sheets[i].style()
	}
	return d, nil
}

// with appends a block; pictures that follow each other stand side by side.
func (s *sheet) with(blocks []block, b report.Block) ([]block, error) {
	switch b := b.(type) {
	case report.Lines:
		for _, text := range b {
			blocks = append(blocks, block{Text: report.Text(text)})
		}
		return blocks, nil
	case report.Grid:
		return s.with(blocks, b.Table())
	case report.Table:
		return append(blocks, block{Table: &table{b, s.tableName(b)}}), nil
	case report.Picture:
		p, err := drawn(b)
		if n := len(blocks); err == nil && n > 0 && blocks[n-1].Pictures != nil {
			blocks[n-1].Pictures = append(blocks[n-1].Pictures, p)
			return blocks, nil
		}
		return append(blocks, block{Pictures: []picture{p}}), err
	case report.Beside:
		columns := make([][]block, 2)
		for i, column := range [][]report.Block{b.Left, b.Right} {
			for _, inner := range column {
				var err error
				if columns[i], err = s.with(columns[i], inner); err != nil {
					return nil, err
				}
			}
		}
		return append(blocks, block{Columns: columns}), nil
	}
	return append(blocks, block{Text: b}), nil
}

// tableName is what is read aloud: no two regions of a page may be named alike.
func (s *sheet) tableName(t report.Table) string {
	name := t.Title
	if name == "" {
		name = t.Columns[0]
	}
	if s.Name != "" {
		name = s.Name + ": " + name
	}
	return name
}

func drawn(p report.Picture) (picture, error) {
	drawing, err := chart.SVG(p.Drawing, p.Says)
	if err != nil {
		return picture{}, fmt.Errorf("picture %q: %w", p.Question, err)
	}
	width, height := chart.Size(p.Drawing)
	return picture{p.Question, drawing, fmt.Sprintf("--width:%g", width), width, height}, nil
}
