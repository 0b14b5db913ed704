package workbook

import (
	"fmt"
	"math"
	"math/rand/v2"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// draft holds the numbers and formulas alone, for the library to work out.
func draft(sheets []*sheet) (*excelize.File, error) {
	f, err := withSheets(sheets)
	if err != nil {
		return nil, err
	}
	var lifted place
	for _, s := range sheets {
		if at := s.names[liftName]; at.known() {
			lifted = at
		}
	}
	if err := f.SetDefinedName(&excelize.DefinedName{Name: liftName, RefersTo: lifted.absolute()}); err != nil {
		return nil, err
	}
	for _, s := range sheets {
		for r, row := range s.rows {
			for c, cell := range row {
				at := place{s, c + 1, r + 1}.address()
				switch {
				case cell.formula != "":
					err = f.SetCellFormula(s.title, at, cell.formula)
				case cell.number():
					err = f.SetCellValue(s.title, at, cell.value)
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
	for range books {
		sheets, _, _ := typedBook(a, r)
		found, err := evaluate(sheets)
		if err != nil {
			t.Fatal(err)
		}
		f, err := draft(sheets)
		if err != nil {
			t.Fatal(err)
		}
		for at, got := range found {
			if want := calculated(t, f, at); math.Abs(got-want) > most*max(1, math.Abs(want)) {
				t.Errorf("%s is %v, the library says %v: %s", at.absolute(), got, want, at.cell().formula)
				continue
			}
			checked++
		}
		if len(found) != formulasOf(sheets) {
			t.Errorf("%d of %d formulas have an outcome", len(found), formulasOf(sheets))
		}
	}
	fmt.Printf("formulas worked out as by the library: checked %d of %d\n", checked, checked)
	if checked == 0 {
		t.Error("no formula was checked")
	}
}

// small is a sheet of numbers, a text and one formula, in B1.
func small(text string) []*sheet {
	s, other := newSheet("Here"), newSheet("Over there")
	s.add(figure(moneyFormat, 2), cell{formula: text}, plain("text"))
	s.add(figure(moneyFormat, 3))
	s.add(plain("text"), plain(""), plain(""))
	s.add(figure(moneyFormat, 4))
	s.names["lift"] = place{s, 1, 1}
	other.add(figure(moneyFormat, 5))
	return []*sheet{s, other}
}

// By hand; A1 to A4 are 2, 3, a text and 4.
func TestSmallFormulas(t *testing.T) {
	for text, want := range map[string]float64{
		"1+2*3": 7, "(1+2)*3": 9, "8/2/2": 2, "7-2-1": 4, "A1*A2+A4": 10, "'Over there'!$A$1-$A$1": 3, "lift*0.5": 1,
		"SUM(A1:A4)": 9, "MIN(A1:A4,1)": 1, "MAX(A1:A4)": 4, "(SUM(A1:A4)-MIN(A1:A4)-MAX(A1:A4))/1": 3, "SUM($A$1:$A$2,'Over there'!$A$1:$A$1)": 10,
		"IF(A1>0,A2,9)": 3, "IF(0>A1,A2,9)": 9, "IF(A1>A1,1,0)": 0, "ROUND(2.345,2)": 2.35, "ROUND(A1*1.005,2)": 2.01, "D9": 0,
	} {
		sheets := small(text)
		found, err := evaluate(sheets)
		if got := found[place{sheets[0], 2, 1}]; err != nil || math.Abs(got-want) > 1e-12 {
			t.Errorf("%s is %v, %v, want %v", text, got, err, want)
		}
	}
	for text, want := range map[string]string{
		"A3": `is the text "text"`, "C1+1": "is the text", "1/0": "comes to +Inf", "B1": errCircle.Error(), "1+B1": errCircle.Error(), "AVERAGE(A1)": "no function AVERAGE",
		"(1": "not closed", "SUM(A1": "not closed", "MIN()": "not understood", "ROUND(1)": "1 arguments", "1 1": "left over", "raised": "not understood",
		"'Nowhere'!A1": "no sheet", "A0": "no place", "A1^2": "left over", "": "",
	} {
		_, err := evaluate(small(text))
		if want != "" && (err == nil || !strings.Contains(err.Error(), want) || !strings.Contains(err.Error(), "'Here'!$B$1")) {
			t.Errorf("%s: %v, want %q", text, err, want)
		}
	}
}
