package cells

import (
	"strings"

	"github.com/xuri/excelize/v2"
)

// prepare sets what holds for a sheet as a whole: paper, protection, what may be
// typed in, charts.
func (s *Sheet) prepare(f *excelize.File) error {
	const letter = 1
	paper, landscape, wide, long, yes, no := letter, "landscape", 1, s.Paper.High, true, false
	if s.Paper.Upright {
		landscape = "portrait"
	}
	headers := !s.Screen.Bare
	steps := []func() error{
		func() error { return f.SetSheetProps(s.Title, &excelize.SheetPropsOptions{FitToPage: &yes}) },
		func() error {
			return f.SetPageLayout(s.Title, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &long, BlackAndWhite: &yes})
		},
		func() error { return f.SetPageMargins(s.Title, s.Paper.margins()) },
		func() error {
			return f.SetSheetView(s.Title, 0, &excelize.ViewOptions{ShowGridLines: &no, ShowRowColHeaders: &headers})
		},
		func() error {
			return f.SetHeaderFooter(s.Title, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"})
		},
		func() error {
			return f.ProtectSheet(s.Title, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true, FormatCells: true})
		},
		func() error { return s.validate(f) },
		func() error { return s.printArea(f) },
		func() error { return s.mark(f) },
	}
	for row, height := range s.Screen.Heights { // a chart is as high as the rows are when it is added
		steps = append(steps, func() error { return f.SetRowHeight(s.Title, row, height) })
	}
	for _, c := range s.Charts {
		steps = append(steps, func() error { return f.AddChart(s.Title, c.At.Address(), c.native()) })
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// margins are narrow, in inches.
func (p Paper) margins() *excelize.PageLayoutMarginsOptions {
	side, foot, center := 0.4, 0.6, p.Center
	return &excelize.PageLayoutMarginsOptions{Left: &side, Right: &side, Top: &side, Bottom: &foot, Horizontally: &center}
}

// printArea keeps columns that only other sheets need off the paper.
func (s *Sheet) printArea(f *excelize.File) error {
	if s.Paper.Columns == 0 {
		return nil
	}
	columns, rows := s.Paper.Columns, s.Paper.Rows
	if rows == 0 {
		rows = len(s.Rows)
	}
	area := Span{Place{s, 1, 1}, Place{s, columns, rows}}
	return f.SetDefinedName(&excelize.DefinedName{Name: "_xlnm.Print_Area", RefersTo: area.Absolute(), Scope: s.Title})
}

// Verdicts of a cell that holds a figure of the sheets against the program's own.
const (
	Equal   = "equal"
	Changed = "changed by you"
	Differs = "differs"
	Agrees  = "agrees with the program" // Equal in a sentence
)

// mark writes the verdicts of Marks in their looks: equal is green, differs bold.
func (s *Sheet) mark(f *excelize.File) error {
	for _, of := range s.Marks {
		green, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Color: "1E6B2E"}})
		if err != nil {
			return err
		}
		bold, err := f.NewConditionalStyle(&excelize.Style{Font: &excelize.Font{Bold: true, Color: "000000"}})
		if err != nil {
			return err
		}
		rules := []excelize.ConditionalFormatOptions{
			{Type: "cell", Criteria: "==", Value: `"` + Equal + `"`, Format: &green},
			{Type: "cell", Criteria: "==", Value: `"` + Agrees + `"`, Format: &green},
			{Type: "cell", Criteria: "==", Value: `"` + Differs + `"`, Format: &bold},
		}
		if err := f.SetConditionalFormat(s.Title, of.seenFrom(s), rules); err != nil {
			return err
		}
	}
	return nil
}

// validate lets only what its check allows be typed into an input. Inputs with the same
// check in one column share it.
func (s *Sheet) validate(f *excelize.File) error {
	for r, row := range s.Rows {
		for c, cell := range row {
			if !cell.Look.Input || cell.Check != nil && cell.Check.Any {
				continue
			}
			check, err := cell.Check.native(cell.Look)
			if err != nil {
				return err
			}
			check.SetSqref(Place{s, c + 1, r + 1}.Address())
			if err := f.AddDataValidation(s.Title, check); err != nil {
				return err
			}
		}
	}
	return nil
}

// native is the check in the library's words.
func (c *Check) native(l Look) (*excelize.DataValidation, error) {
	v := excelize.NewDataValidation(c != nil)
	if c == nil {
		return v, c.usual(v, l)
	}
	if c.Prompt != "" {
		v.SetInput(c.Title, c.Prompt)
	}
	switch {
	case c.List != "" && strings.ContainsAny(c.List, "!_("):
		v.SetSqrefDropList(c.List)
	case c.List != "":
		if err := v.SetDropList(strings.Split(c.List, ",")); err != nil {
			return nil, err
		}
	default:
		if err := v.SetRange(c.Least, c.Most, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween); err != nil {
			return nil, err
		}
	}
	v.SetError(excelize.DataValidationErrorStyleStop, c.Title, c.Text)
	return v, nil
}

// usual lets only numbers of 0 and more, and shares up to 1, be typed in.
func (*Check) usual(v *excelize.DataValidation, l Look) error {
	most, text := mostTyped, "Give a number of 0 or more."
	if l.Format == ShareFormat {
		most, text = 1, "Give a part of one, from 0 to 1."
	}
	v.SetError(excelize.DataValidationErrorStyleStop, "Not a figure of this kind", text)
	return v.SetRange(0.0, most, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween)
}

// mostTyped is above any price, yield or acreage.
const mostTyped = 1e9

// writeRows writes the cells from the top, formulas with what they come to.
func (s *Sheet) writeRows(f *excelize.File, styles styles, found FormulaValues) error {
	w, err := f.NewStreamWriter(s.Title)
	if err != nil {
		return err
	}
	for i, width := range s.Widths {
		if err := w.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	if err := s.hold(w); err != nil {
		return err
	}
	for _, of := range s.Merged {
		if err := w.MergeCell(of.From.Address(), of.To.Address()); err != nil {
			return err
		}
	}
	for r, row := range s.Rows {
		values := make([]any, len(row))
		for c, cell := range row {
			if cell == (Cell{}) {
				continue
			}
			style, err := styles.of(cell.Look)
			if err != nil {
				return err
			}
			value := cell.Value
			if cell.Formula != "" {
				value = found[Place{s, c + 1, r + 1}]
			}
			values[c] = excelize.Cell{StyleID: style, Formula: cell.Formula, Value: value}
		}
		height := s.Screen.Heights[r+1]
		if height == 0 {
			height = s.height(row)
		}
		if err := w.SetRow(Place{s, 1, r + 1}.Address(), values, excelize.RowOpts{Height: height}); err != nil {
			return err
		}
	}
	return w.Flush()
}

// hold keeps rows and columns in sight, and others out of it.
func (s *Sheet) hold(w *excelize.StreamWriter) error {
	const lastColumn = 80 // after any in use
	if s.Shown > 0 {
		if err := w.SetColVisible(s.Shown+1, lastColumn, false); err != nil {
			return err
		}
	}
	if s.Frozen == 0 {
		return nil
	}
	panes := &excelize.Panes{Freeze: true, XSplit: s.Beside, YSplit: s.Frozen, TopLeftCell: Place{s, s.Beside + 1, s.Frozen + 1}.Address(), ActivePane: "bottomLeft"}
	if s.Beside > 0 {
		panes.ActivePane = "bottomRight"
	}
	return w.SetPanes(panes)
}

// height is that of a row: enough for its column titles, which are broken into
// lines; 0 where the usual height does.
func (s *Sheet) height(row []Cell) float64 {
	const line = 13.5
	most := 0
	for c, cell := range row {
		if text, is := cell.Value.(string); is && cell.Look.Wrap && c < len(s.Widths) {
			most = max(most, len(Wrapped(text, int(s.Widths[c])-2)))
		}
	}
	if most < 2 {
		return 0
	}
	return line * float64(most)
}
