package page

import (
	_ "embed"
	"fmt"
	"io"

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
	Style  string // CSS
	Blocks []block
}

// block has one of its fields.
type block struct {
	Heading  report.Heading
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
	SVG           string  // markup
	Style         string  // CSS
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
	_, err := io.WriteString(w, d.markup())
	return err
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
		last.Blocks = append(last.Blocks, block{Heading: b})
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
		last.addPicture(picture{b.Question, drawing, fmt.Sprintf("--width:%g", width), width, height})
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
