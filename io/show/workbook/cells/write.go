package cells

import (
	"io"
	"maps"
	"slices"

	"github.com/xuri/excelize/v2"
)

// WithSheets is a file with empty sheets.
func WithSheets(sheets []*Sheet) (*excelize.File, error) {
	f := excelize.NewFile()
	if err := f.SetSheetName(f.GetSheetName(0), sheets[0].Title); err != nil {
		return nil, err
	}
	for _, s := range sheets[1:] {
		if _, err := f.NewSheet(s.Title); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// Write writes the sheets with what their formulas come to. Charts, validations
// and protection go before the rows: the library drops what comes after them.
func Write(w io.Writer, sheets []*Sheet, found FormulaValues) error {
	f, err := WithSheets(sheets)
	if err != nil {
		return err
	}
	defer f.Close()
	for _, s := range sheets {
		for _, name := range slices.Sorted(maps.Keys(s.Names)) {
			if err := f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: s.Names[name].Absolute()}); err != nil {
				return err
			}
		}
	}
	styles := styles{file: f, ids: map[Look]int{}}
	for _, s := range sheets {
		if err := s.prepare(f); err != nil {
			return err
		}
		if err := s.writeRows(f, styles, found); err != nil {
			return err
		}
	}
	return f.Write(w)
}

// styles are those in use, by look.
type styles struct {
	file *excelize.File
	ids  map[Look]int
}

// of returns the style of a look.
func (s styles) of(l Look) (int, error) {
	if id, made := s.ids[l]; made {
		return id, nil
	}
	id, err := s.file.NewStyle(l.style())
	s.ids[l] = id
	return id, err
}
