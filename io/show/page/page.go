package page

import (
	_ "embed"
	"fmt"
	"html"
	"html/template"
	"io"

	"fencerow/io/show/chart"
	"fencerow/io/show/report"
)

//go:embed page.html
var pageText string

var pageTemplate = template.Must(template.New("page").Parse(pageText))

// document is a report as the template wants it.
type document struct {
	Title  string
	Sheets []sheet
}

type sheet struct {
	Name   string
	Style  template.CSS
	Blocks []block
}

// block has one of its fields.
type block struct {
	Heading  template.HTML
	Text     string
	List     report.List
	Table    *table
	Pictures []picture
}

type table struct {
	report.Table
	Name string // read aloud
}

type picture struct {
	Question      string
	SVG           template.HTML
	Style         template.CSS
	width, height float64 // points
}

// Write prints a report, each of its sheets on one piece of paper. The error is that
// of a picture, or of w.
func Write(w io.Writer, r report.Report) error {
	d := document{Sheets: []sheet{{}}}
	for _, b := range r.Blocks {
		if err := d.add(b); err != nil {
			return err
		}
	}
	for i := range d.Sheets {
		d.Sheets[i].Style = d.Sheets[i].style()
	}
	return pageTemplate.Execute(w, d)
}

// add appends a block; pictures that follow each other stand side by side.
func (d *document) add(b report.Block) error {
	last := &d.Sheets[len(d.Sheets)-1]
	switch b := b.(type) {
	case report.Sheet:
		d.Sheets = append(d.Sheets, sheet{})
	case report.Heading:
		if d.Title == "" {
			d.Title = b.Text
		}
		if last.Name == "" {
			last.Name = b.Text
		}
		last.Blocks = append(last.Blocks, block{Heading: heading(b)})
	case report.Text:
		last.Blocks = append(last.Blocks, block{Text: string(b)})
	case report.List:
		last.Blocks = append(last.Blocks, block{List: b})
	case report.Table:
		name := b.Title
		if name == "" {
			name = b.Columns[0]
		}
		if last.Name != "" {
			name = last.Name + ": " + name // no two regions of a page may be named alike
		}
		last.Blocks = append(last.Blocks, block{Table: &table{b, name}})
	case report.Picture:
		drawing, err := chart.SVG(b.Drawing, b.Says)
		if err != nil {
			return fmt.Errorf("picture %q: %w", b.Question, err)
		}
		width, height := chart.Size(b.Drawing)
		last.addPicture(picture{b.Question, template.HTML(drawing), template.CSS(fmt.Sprintf("--width:%g", width)), width, height})
	}
	return nil
}

func (s *sheet) addPicture(p picture) {
	if n := len(s.Blocks); n > 0 && s.Blocks[n-1].Pictures != nil {
		s.Blocks[n-1].Pictures = append(s.Blocks[n-1].Pictures, p)
		return
	}
	s.Blocks = append(s.Blocks, block{Pictures: []picture{p}})
}

func heading(h report.Heading) template.HTML {
	return template.HTML(fmt.Sprintf("<h%d>%s</h%d>", h.Level, html.EscapeString(h.Text), h.Level))
}
