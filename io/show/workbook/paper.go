package workbook

import (
	"github.com/xuri/excelize/v2"
)

// prepare sets what holds for a sheet as a whole: paper, protection, what may be
// typed in, charts.
func (s *sheet) prepare(f *excelize.File) error {
	const letter = 1
	paper, landscape, wide, long, yes, no := letter, "landscape", 1, 0, true, false
	steps := []func() error{
		func() error { return f.SetSheetProps(s.title, &excelize.SheetPropsOptions{FitToPage: &yes}) },
		func() error {
			return f.SetPageLayout(s.title, &excelize.PageLayoutOptions{Size: &paper, Orientation: &landscape, FitToWidth: &wide, FitToHeight: &long, BlackAndWhite: &yes})
		},
		func() error { return f.SetSheetView(s.title, 0, &excelize.ViewOptions{ShowGridLines: &no}) },
		func() error {
			return f.SetHeaderFooter(s.title, &excelize.HeaderFooterOptions{OddFooter: "&L&A&RPage &P of &N"})
		},
		func() error {
			return f.ProtectSheet(s.title, &excelize.SheetProtectionOptions{SelectLockedCells: true, SelectUnlockedCells: true, FormatColumns: true, FormatRows: true, FormatCells: true})
		},
		func() error { return s.validate(f) },
	}
	for _, c := range s.charts {
		steps = append(steps, func() error { return f.AddChart(s.title, c.at.address(), c.native()) })
	}
	for _, step := range steps {
		if err := step(); err != nil {
			return err
		}
	}
	return nil
}

// validate lets only numbers of 0 and more, and shares up to 1, be typed in.
func (s *sheet) validate(f *excelize.File) error {
	for r, row := range s.rows {
		for c, cell := range row {
			if !cell.look.input {
				continue
			}
			check := excelize.NewDataValidation(false)
			check.SetSqref(place{s, c + 1, r + 1}.address())
			most, text := mostTyped, "Give a number of 0 or more."
			if cell.look.format == shareFormat {
				most, text = 1, "Give a part of one, from 0 to 1."
			}
			if err := check.SetRange(0.0, most, excelize.DataValidationTypeDecimal, excelize.DataValidationOperatorBetween); err != nil {
				return err
			}
			check.SetError(excelize.DataValidationErrorStyleStop, "Not a figure of this kind", text)
			if err := f.AddDataValidation(s.title, check); err != nil {
				return err
			}
		}
	}
	return nil
}

// mostTyped is above any price, yield or acreage.
const mostTyped = 1e9

// writeRows writes the cells from the top, formulas with what they come to.
func (s *sheet) writeRows(f *excelize.File, styles styles, found formulaValues) error {
	w, err := f.NewStreamWriter(s.title)
	if err != nil {
		return err
	}
	for i, width := range s.widths {
		if err := w.SetColWidth(i+1, i+1, width); err != nil {
			return err
		}
	}
	below := place{s, 1, s.frozen + 1}
	if err := w.SetPanes(&excelize.Panes{Freeze: true, YSplit: s.frozen, TopLeftCell: below.address(), ActivePane: "bottomLeft"}); err != nil {
		return err
	}
	for r, row := range s.rows {
		values := make([]any, len(row))
		for c, cell := range row {
			style, err := styles.of(cell.look)
			if err != nil {
				return err
			}
			value := cell.value
			if cell.formula != "" {
				value = found[place{s, c + 1, r + 1}]
			}
			values[c] = excelize.Cell{StyleID: style, Formula: cell.formula, Value: value}
		}
		if err := w.SetRow(place{s, 1, r + 1}.address(), values, excelize.RowOpts{Height: s.height(row)}); err != nil {
			return err
		}
	}
	return w.Flush()
}

// height is that of a row: enough for its column titles, which are broken into
// lines; 0 where the usual height does.
func (s *sheet) height(row []cell) float64 {
	const line = 13.5
	most := 0
	for c, cell := range row {
		if text, is := cell.value.(string); is && cell.look.wrap && c < len(s.widths) {
			most = max(most, len(wrapped(text, int(s.widths[c])-2)))
		}
	}
	if most < 2 {
		return 0
	}
	return line * float64(most)
}
