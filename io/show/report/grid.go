package report

import "strings"

// Grid is a table for narrow places: heads may have several lines and stand under a head
// that several columns share, and text columns stand left.
type Grid struct {
	Title   []string
	Columns []Column
	Rows    [][]string
	Notes   []string
}

// Column is one column of a Grid.
type Column struct {
	Over  string // head over this column and its neighbors with the same text; "" for none
	Head  string // its lines parted by line breaks
	Left  bool   // set left, else right
	Wraps bool   // cells may be broken at spaces where the line is full
}

// Lines are short paragraphs close together.
type Lines []string

func (Grid) block()  {}
func (Lines) block() {}

// Table is a grid as a plain table, for places with room: each head in one line with the
// one that it shares.
func (g Grid) Table() Table {
	t := Table{Title: strings.Join(g.Title, " "), Rows: g.Rows, Notes: g.Notes}
	for _, c := range g.Columns {
		t.Columns = append(t.Columns, strings.TrimSpace(c.Over+" "+strings.ReplaceAll(c.Head, "\n", " ")))
	}
	return t
}

// Add appends blocks, without those that have nothing to show.
func (r *Report) Add(blocks ...Block) {
	for _, b := range blocks {
		switch b := b.(type) {
		case Grid:
			if len(b.Rows) == 0 && len(b.Title)+len(b.Notes) == 0 {
				continue
			}
		case Lines:
			if len(b) == 0 {
				continue
			}
		}
		r.Blocks = append(r.Blocks, b)
	}
}
