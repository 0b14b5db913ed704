package summary

import (
	"bytes"
	"cmp"
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"
)

// Write writes tables as a workbook, each a sheet that ends with the same lines. The same
// tables give the same bytes.
func Write(w io.Writer, tables []Table, end []string) error {
	book := excelize.NewFile()
	defer book.Close()
	book.SetZipWriter(newSettled)
	looks := looks{book: book, ids: map[look]int{}}
	for i, t := range tables {
		if i == 0 {
			if err := book.SetSheetName(book.GetSheetName(0), t.Name); err != nil {
				return err
			}
		} else if _, err := book.NewSheet(t.Name); err != nil {
			return err
		}
		if err := t.valued().write(looks, end); err != nil {
			return fmt.Errorf("sheet %s: %w", t.Name, err)
		}
	}
	var written bytes.Buffer
	if err := book.Write(&written); err != nil {
		return err
	}
	_, err := written.WriteTo(w)
	return err
}

// sheet is a table while it is written.
type sheet struct {
	Table
	looks  looks
	out    *excelize.StreamWriter
	widths []float64
	row    int // the last that is written
}

// write writes one sheet: what is said, the table, the notes. What the library writes before
// the rows is set before them.
func (t Table) write(looks looks, end []string) error {
	s := sheet{Table: t, looks: looks, widths: t.widths()}
	if err := s.paper(); err != nil {
		return err
	}
	var err error
	if s.out, err = looks.book.NewStreamWriter(t.Name); err != nil {
		return err
	}
	for i := len(s.widths); i > 0; i-- { // the library writes them in the opposite order
		if err := s.out.SetColWidth(i, i, s.widths[i-1]); err != nil {
			return err
		}
	}
	if err := s.freeze(); err != nil {
		return err
	}
	if err := s.text(look{title: true}, cmp.Or(t.Title, t.Name)); err != nil {
		return err
	}
	if err := s.texts(t.Said); err != nil {
		return err
	}
	if err := s.heads(); err != nil {
		return err
	}
	if err := s.lines(); err != nil {
		return err
	}
	s.row++
	if err := s.texts(t.Notes); err != nil {
		return err
	}
	if err := s.texts(end); err != nil {
		return err
	}
	return s.out.Flush()
}

// headRow is the row of the heads.
func (t Table) headRow() int { return 1 + len(t.Said) + 1 }

// lastColumn is the name of the last column: "K".
func (t Table) lastColumn() string {
	name, err := excelize.ColumnNumberToName(len(t.Columns))
	if err != nil {
		panic(err) // a column of this program, not of the user
	}
	return name
}

// paper sets how a sheet is printed: across, one page wide, heads on every page.
func (t sheet) paper() error {
	const letter = 1
	paper, landscape, wide, long, yes := letter, "landscape", 1, 0, true
	book, margin, narrow := t.looks.book, 0.5, 0.4
	if err := book.SetSheetProps(t.Name, &excelize.SheetPropsOptions{FitToPage: &yes}); err != nil {
		return err
	}
	if err := book.SetPageLayout(t.Name, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &long}); err != nil {
		return err
	}
	if err := book.SetPageMargins(t.Name, &excelize.PageLayoutMarginsOptions{Left: &narrow, Right: &narrow, Top: &margin, Bottom: &margin}); err != nil {
		return err
	}
	if err := book.SetHeaderFooter(t.Name, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"}); err != nil {
		return err
	}
	head := t.headRow()
	return book.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Titles", RefersTo: fmt.Sprintf("'%s'!$%d:$%d", t.Name, head, head), Scope: t.Name})
}

// freeze keeps the heads in sight, and sets filters on the list.
func (t sheet) freeze() error {
	head := t.headRow()
	below := fmt.Sprintf("A%d", head+1)
	if err := t.out.SetPanes(&excelize.Panes{Freeze: true, YSplit: head, TopLeftCell: below, ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	if len(t.Rows) == 0 {
		return nil
	}
	return t.looks.book.AutoFilter(t.Name, fmt.Sprintf("A%d:%s%d", head, t.lastColumn(), head+len(t.Rows)), nil)
}

// lineHeight is that of a line of text, in points.
const lineHeight = 12.75

// broad is how many letters of a text stand where one digit does.
const broad = 1.15

// texts writes lines over the width of the table.
func (t *sheet) texts(all []string) error {
	for _, text := range all {
		if err := t.text(look{wrap: true}, text); err != nil {
			return err
		}
	}
	return nil
}

// text writes one line over the width of the table.
func (t *sheet) text(l look, text string) error {
	t.row++
	style, err := t.looks.of(l)
	if err != nil {
		return err
	}
	width := 0.0
	for _, w := range t.widths {
		width += w
	}
	at := fmt.Sprintf("A%d", t.row)
	height := excelize.RowOpts{}
	if n := lines(text, broad*broad*width); n > 1 && !l.title {
		height.Height = lineHeight * float64(n)
	}
	if err := t.out.SetRow(at, []any{excelize.Cell{StyleID: style, Value: text}}, height); err != nil || l.title {
		return err
	}
	return t.out.MergeCell(at, fmt.Sprintf("%s%d", t.lastColumn(), t.row))
}

// look adds to a look how a column stands: numbers at the right, texts a little apart from
// what is left of them.
func (t Table) look(column int, l look) look {
	l.right = t.Columns[column].Kind.right()
	l.apart = !l.right && column > 0
	return l
}

// heads writes the heads of the columns.
func (t *sheet) heads() error {
	t.row++
	cells, most := make([]any, len(t.Columns)), 1
	for i, c := range t.Columns {
		style, err := t.looks.of(t.look(i, look{head: true}))
		if err != nil {
			return err
		}
		cells[i] = excelize.Cell{StyleID: style, Value: c.Head}
		most = max(most, lines(c.Head, broad*(t.widths[i]-2)))
	}
	return t.out.SetRow(fmt.Sprintf("A%d", t.row), cells, excelize.RowOpts{Height: lineHeight*float64(most) + 3})
}

// lines writes the list and its total.
func (t *sheet) lines() error {
	cells := make([]any, len(t.Columns))
	for _, row := range t.Rows {
		if err := t.line(row, false, cells); err != nil {
			return err
		}
	}
	if t.Total == nil {
		return nil
	}
	return t.line(t.Total, true, cells)
}

func (t *sheet) line(row []any, total bool, cells []any) error {
	t.row++
	most := 1
	for i, c := range t.Columns {
		cells[i] = nil
		if i >= len(row) {
			continue
		}
		value := row[i]
		if text, is := value.(string); is && len(text) >= int(t.widths[i]) {
			most = max(most, lines(text, broad*t.widths[i]-1))
		}
		style, err := t.looks.of(t.look(i, look{kind: c.Kind, wrap: c.Kind <= Words, total: total, list: !total, cents: c.Kind.small(value)}))
		if err != nil {
			return err
		}
		cells[i] = excelize.Cell{StyleID: style, Value: value}
	}
	height := excelize.RowOpts{}
	if most > 1 {
		height.Height = min(lineHeight*float64(most), excelize.MaxRowHeight)
	}
	at, err := excelize.CoordinatesToCellName(1, t.row)
	if err != nil {
		return err
	}
	return t.out.SetRow(at, cells, height)
}
