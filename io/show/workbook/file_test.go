package workbook

import (
	"bytes"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"

	"fencerow/io/show/report"
	"fencerow/io/show/workbook/cells"
)

// A program that only reads the file sees every figure.
func TestEveryFormulaCarriesItsFigure(t *testing.T) {
	a := ask(t, testCase())
	f := a.workbook(t)
	sheets, _ := lay(a.comparison, a.Figures, a.pages())
	found, err := cells.Evaluate(sheets)
	if err != nil {
		t.Fatal(err)
	}
	checked, all := 0, 0
	for _, s := range sheets {
		for at := range s.Formulas() {
			all++
			text, err := f.GetCellValue(s.Title, at.Address(), excelize.Options{RawCellValue: true})
			if said, is := found[at].(string); is {
				if text != said || err != nil {
					t.Fatalf("%s carries %q, want %q", at.Absolute(), text, said)
				}
				checked++
				continue
			}
			cached, bad := strconv.ParseFloat(text, 64)
			if err != nil || bad != nil {
				t.Fatalf("%s carries %q", at.Absolute(), text)
			}
			if formula, _ := f.GetCellFormula(s.Title, at.Address()); formula != at.On.Rows[at.Row-1][at.Column-1].Formula {
				t.Fatalf("%s holds the formula %q", at.Absolute(), formula)
			}
			got := found.Number(at)
			if len(ofFarms([]*cells.Sheet{s})) > 0 {
				got = calculated(t, f, at)
			}
			if math.Abs(got-cached) > halfCent {
				t.Errorf("%s carries %v and comes to %v", at.Absolute(), cached, got)
				continue
			}
			checked++
		}
	}
	fmt.Printf("checked %d of %d formula cells carry what they come to\n", checked, all)
	if checked != all || all == 0 {
		t.Errorf("%d of %d", checked, all)
	}
}

// The formulas keep to what every spreadsheet program knows.
func TestFormulasUseCommonFunctions(t *testing.T) {
	a := ask(t, testCase())
	sheets, _ := lay(a.comparison, a.Figures, a.pages())
	known := []string{"ROUND", "MIN", "MAX", "IF", "SUM", "AND", "IFERROR", "ISNUMBER", "ABS", "COUNT", "COUNTIF", "AVERAGE", "PERCENTILE", "INDEX", "MATCH", "FIXED"}
	call, said := regexp.MustCompile(`([A-Za-z][A-Za-z0-9.]*)\(`), regexp.MustCompile(`"[^"]*"`)
	for _, s := range sheets {
		for at := range s.Formulas() {
			formula := said.ReplaceAllString(at.Cell().Formula, "")
			for _, m := range call.FindAllStringSubmatch(formula, -1) {
				if !slices.Contains(known, m[1]) {
					t.Errorf("%s uses %s: %s", at.Absolute(), m[1], formula)
				}
			}
			if strings.ContainsAny(formula, "{}[]") || len(at.Cell().Formula) > 8000 {
				t.Errorf("%s: %s", at.Absolute(), formula)
			}
		}
	}
}

// wordsOrBlank are the names that lead to words, to an empty cell, to a list or to what is printed.
var wordsOrBlank = regexp.MustCompile(`^(listed_.*|.*_chosen|.*_typed|.*_from|.*_unit|.*_status|.*_words|all_checks|_xlnm.Print_Area)$`)

// Every name leads to a cell with a number, and no name to two.
func TestNamesLeadToFigures(t *testing.T) {
	f := ask(t, testCase()).workbook(t)
	names := map[string]bool{}
	for _, n := range f.GetDefinedName() {
		if n.Name == "_xlnm.Print_Area" {
			continue
		}
		if names[strings.ToLower(n.Name)] || !regexp.MustCompile(`^[a-z][a-z0-9_]*$`).MatchString(n.Name) {
			t.Errorf("the name %s is not good, or there twice", n.Name)
		}
		names[strings.ToLower(n.Name)] = true
		sheet, cell, _ := strings.Cut(n.RefersTo, "!")
		text, err := f.GetCellValue(strings.Trim(sheet, "'"), strings.ReplaceAll(cell, "$", ""), excelize.Options{RawCellValue: true})
		if _, bad := strconv.ParseFloat(text, 64); (err != nil || bad != nil) && !wordsOrBlank.MatchString(n.Name) {
			t.Errorf("%s leads to %s, which holds %q", n.Name, n.RefersTo, text)
		}
	}
	for _, name := range []string{"lift", "price_corn_2026", "guarantee_99001_corn_all_2026", "plc_total_2027", "plc_usd_99001_0588_corn_2026"} {
		if !names[name] {
			t.Errorf("there is no name %s", name)
		}
	}
}

// A text of the user that looks like a formula stays a text.
func TestTextIsNoFormula(t *testing.T) {
	c := testCase()
	texts := []string{"=1+1", "+1", "-1", "@SUM(A1)", "=HYPERLINK(\"http://x\")"}
	c.Operation.Farms[0].Bases[0].Tract = texts[0]
	a := ask(t, c)
	pages := a.pages()
	pages.Standing = report.Report{Blocks: []report.Block{report.Table{Columns: []string{texts[1], "x"}, Rows: [][]string{texts[2:4]}}, report.Text(texts[4])}}
	var buffer bytes.Buffer
	if err := Write(&buffer, a.comparison, a.Figures, pages); err != nil {
		t.Fatal(err)
	}
	f := opened(t, buffer.Bytes())
	found := map[string]bool{}
	for _, sheet := range f.GetSheetList() {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		for r, row := range rows {
			for column, text := range row {
				at, _ := excelize.CoordinatesToCellName(column+1, r+1)
				if !slices.Contains(texts, text) {
					continue
				}
				found[text] = true
				formula, _ := f.GetCellFormula(sheet, at)
				kind, _ := f.GetCellType(sheet, at)
				if formula != "" || kind != excelize.CellTypeInlineString && kind != excelize.CellTypeSharedString {
					t.Errorf("%s %s holds %q as type %v with formula %q", sheet, at, text, kind, formula)
				}
			}
		}
	}
	if len(found) != len(texts) {
		t.Errorf("found %v of %q", found, texts)
	}
}

// The sheets print on letter paper, end with the cautions, and only input cells
// are unlocked and checked.
func TestSheetsAreReady(t *testing.T) {
	a := ask(t, testCase())
	f := a.workbook(t)
	sheets, _ := lay(a.comparison, a.Figures, a.pages())
	for _, s := range sheets {
		if s.Paper.Hidden {
			continue
		}
		layout, err := f.GetPageLayout(s.Title)
		if err != nil || *layout.Size != 1 || *layout.FitToWidth != 1 {
			t.Errorf("%s: %+v, %v", s.Title, layout, err)
		}
		if panes, err := f.GetPanes(s.Title); err != nil || panes.Freeze != (s.Frozen > 0) {
			t.Errorf("%s: %+v, %v", s.Title, panes, err)
		}
		rows, _ := f.GetRows(s.Title)
		if last := rows[len(rows)-1][0]; last != a.comparison.Caution[len(a.comparison.Caution)-1] {
			t.Errorf("%s ends with %q", s.Title, last)
		}
		inputs := 0
		for r, row := range s.Rows {
			for c, cell := range row {
				if cell.Look.Input && (cell.Check == nil || !cell.Check.Any) {
					inputs++
				}
				checkLock(t, f, cells.At(s, c+1, r+1), cell.Look.Input)
			}
		}
		if checks, err := f.GetDataValidations(s.Title); err != nil || len(checks) != inputs {
			t.Errorf("%s has %d checks for %d inputs, %v", s.Title, len(checks), inputs, err)
		}
	}
}

func checkLock(t *testing.T, f *excelize.File, at cells.Place, open bool) {
	t.Helper()
	id, err := f.GetCellStyle(at.On.Title, at.Address())
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	if unlocked := style.Protection != nil && !style.Protection.Locked; unlocked != open || open && len(style.Border) != 4 {
		t.Errorf("%s: unlocked %v, borders %d", at.Absolute(), unlocked, len(style.Border))
	}
}
