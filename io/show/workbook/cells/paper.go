package cells

import (
	"github.com/xuri/excelize/v2"
)

// prepare sets what holds for a sheet as a whole: paper, protection, what may be
// typed in, charts.
func (s *Sheet) prepare(f *excelize.File) error {
	const letter = 1
	paper, landscape, wide, long, yes, no := letter, "landscape", 1, 0, true, false
	steps := []func() error{
		func() error { return f.SetSheetProps(s.Title, &excelize.SheetPropsOptions{FitToPage: &yes}) },
		func() error {
			return f.SetPageLayout(s.Title, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &long, BlackAndWhite: &yes})
		},
		func() error { return f.SetSheetView(s.Title, 0, &excelize.ViewOptions{ShowGridLines: &no}) },
		func() error {
			return f.SetHeaderFooter(s.Title, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"})
		},
		func() error {
			return f.ProtectSheet(s.Title, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true, FormatCells: true})
		},
		func() error { return s.validate(f) },
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

// validate lets only numbers of 0 and more, and shares up to 1, be typed in.
func (s *Sheet) validate(f *excelize.File) error {
	for r, row := range s.Rows {
		for c, cell := range row {
			if !cell.Look.Input {
				continue
			}
			check := excelize.NewDataValidation(false)
			check.SetSqref(Place{s, c + 1, r + 1}.Address())
			most, text := mostTyped, "Give a number of 0 or more."
			if cell.Look.Format == ShareFormat {
				most, text = 1, "Give a part of one, from 0 to 1."
			}
			if err := check.SetRange(0.0, most, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween); err != nil {
				return err
			}
			check.SetError(excelize.DataValidationErrorStyleStop, "Not a figure of this kind", text)
			if err := f.AddDataValidation(s.Title, check); err != nil {
				return err
			}
		}
	}
	return nil
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
	below := Place{s, 1, s.Frozen + 1}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: s.Frozen, TopLeftCell: below.Address(), ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	for r, row := range s.Rows {
		values := make([]any, len(row))
		for c, cell := range row {
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
		if err := w.SetRow(Place{s, 1, r + 1}.Address(), values, excelize.RowOpts{Height: s.height(row)}); err != nil {
			return err
		}
	}
	return w.Flush()
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
