package workbook

import (
	"io"
	"maps"
	"slices"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
)

// Pages are the parts that are text and odds, each a sheet of its
// own.
type Pages struct{ Odds, PastYears, Standing, Sources report.Report }

// Write writes the workbook of a comparison. workings are of the crop years of
// the comparison, in order.
func Write(w io.Writer, c answer.Comparison, workings []explain.Workings, r Pages) error {
	sheets, _ := lay(c, workings, r)
	values, err := evaluate(sheets)
	if err != nil {
		return err
	}
	return write(w, sheets, values)
}

// lay lays out all sheets in their order: the answer, what can be changed and what follows
// it, then the odds. The last that is live leads to the places of all figures.
func lay(c answer.Comparison, workings []explain.Workings, r Pages) ([]*sheet, *otherPrices) {
	inputs := layInputs(c, workings)
	arithmetic := layArithmetic(inputs)
	bases := layBaseByBase(arithmetic)
	results := layResults(bases)
	other := layOtherPrices(results)
	live, pages := []*sheet{inputs.sheet, results.sheet, arithmetic.sheet, bases.sheet, other.sheet}, layPages(c, r)
	for _, s := range slices.Concat(live, pages) {
		s.end(c)
	}
	if len(pages) == 0 {
		return live, other
	}
	return slices.Concat(pages[:1], live, pages[1:]), other
}

// withSheets is a file with empty sheets.
func withSheets(sheets []*sheet) (*excelize.File, error) {
	f := excelize.NewFile()
	if err := f.SetSheetName(f.GetSheetName(0), sheets[0].title); err != nil {
		return nil, err
	}
	for _, s := range sheets[1:] {
		if _, err := f.NewSheet(s.title); err != nil {
			return nil, err
		}
	}
	return f, nil
}

// write writes the sheets with what their formulas come to. Charts, validations
// and protection go before the rows: the library drops what comes after them.
func write(w io.Writer, sheets []*sheet, found formulaValues) error {
	f, err := withSheets(sheets)
	if err != nil {
		return err
	}
	defer f.Close()
	for _, s := range sheets {
		for _, name := range slices.Sorted(maps.Keys(s.names)) {
			if err := f.SetDefinedName(&excelize.DefinedName{Name: name, RefersTo: s.names[name].absolute()}); err != nil {
				return err
			}
		}
	}
	styles := styles{file: f, ids: map[look]int{}}
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
	ids  map[look]int
}

// of returns the style of a look.
func (s styles) of(l look) (int, error) {
	if id, made := s.ids[l]; made {
		return id, nil
	}
	id, err := s.file.NewStyle(l.style())
	s.ids[l] = id
	return id, err
}
