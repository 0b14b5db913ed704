package workbook

import (
	"fmt"
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/workbook/cells"
)

// ofFarms are the sheets that package front does not lay out, and the two whose rows they
// refer to. What Front shows and how it follows is for the tests of package front, by
// LibreOffice: for the library it takes minutes.
func ofFarms(sheets []*cells.Sheet) (all []*cells.Sheet) {
	for _, s := range sheets {
		if !slices.Contains([]string{"Front", "Step by step", "Checks", "Lists", "Outcomes"}, s.Title) {
			all = append(all, s)
		}
	}
	return all
}

// draft holds the values and formulas alone, for the library to work out.
func draft(sheets []*cells.Sheet) (*excelize.File, error) {
	sheets = ofFarms(sheets)
	f, err := cells.WithSheets(sheets)
	if err != nil {
		return nil, err
	}
	for _, s := range sheets {
		if at := s.Names[cells.LiftName]; at.Known() {
			if err := f.SetDefinedName(&excelize.DefinedName{Name: cells.LiftName, RefersTo: at.Absolute()}); err != nil {
				return nil, err
			}
		}
		for r, row := range s.Rows {
			for c, cell := range row {
				at := cells.At(s, c+1, r+1).Address()
				switch {
				case cell.Formula != "":
					err = f.SetCellFormula(s.Title, at, cell.Formula)
				case cell.Value != nil:
					err = f.SetCellValue(s.Title, at, cell.Value)
				}
				if err != nil {
					return nil, err
				}
			}
		}
	}
	return f, nil
}

// What the package makes of its formulas is what the library makes of them, whatever is
// typed in.
func TestFormulasAsTheLibraryWorksThemOut(t *testing.T) {
	const books, most = 3, 1e-9 // relative; the library rounds by powers of a tenth
	a, r, checked := ask(t, testCase()), rand.New(rand.NewPCG(3, 4)), 0
	all := 0
	for range books {
		sheets, _, _ := typedBook(a, r)
		found, err := cells.Evaluate(sheets)
		if err != nil {
			t.Fatal(err)
		}
		f, err := draft(sheets)
		if err != nil {
			t.Fatal(err)
		}
		for at, value := range found {
			got, is := value.(float64)
			if !is || len(ofFarms([]*cells.Sheet{at.On})) == 0 {
				continue // a text
			}
			all++
			if want := calculated(t, f, at); math.Abs(got-want) > most*max(1, math.Abs(want)) {
				t.Errorf("%s is %v, the library says %v: %s", at.Absolute(), got, want, at.Cell().Formula)
				continue
			}
			checked++
		}
		if len(found) != formulasOf(sheets) {
			t.Errorf("%d of %d formulas have an outcome", len(found), formulasOf(sheets))
		}
	}
	fmt.Printf("formulas worked out as by the library: checked %d of %d\n", checked, all)
	if checked == 0 {
		t.Error("no formula was checked")
	}
}
