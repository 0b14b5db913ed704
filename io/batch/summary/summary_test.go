package summary

import (
	"bytes"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// invented has every kind of column, a number written as text, and values that are missing.
func invented() []Table {
	return []Table{
		{Name: "First", Title: "All kinds", Said: []string{"One line above."}, Notes: []string{"One below."},
			Columns: []Column{{Head: "name"}, {Head: "what to do", Kind: Words, Width: 20}, {Head: "farms", Kind: Count}, {Head: "base acres", Kind: Acres}, {Head: "dollars after limits", Kind: Dollars},
				{Head: "dollars a base acre", Kind: PerAcre}, {Head: "part of outcomes", Kind: Part}, {Head: "paid not before", Kind: Day}, {Head: "crop year", Kind: Year}},
			Rows: [][]any{
				{"0417", "Several words that stand on more than one line of a narrow column.", 1234, "1234.50", "1234567.89", 12.345, "0.125", "2027-10-01", int32(2026)},
				{"0588", "", 1, 2.0, -3.456, nil, nil, "unknown", nil},
			},
			Total: []any{"all", nil, 1235}},
		{Name: "It's second", Columns: []Column{{Head: "name"}}, Rows: [][]any{{"x"}}},
	}
}

func written(t *testing.T) []byte {
	t.Helper()
	var out bytes.Buffer
	if err := Write(&out, invented(), []string{"The caution."}); err != nil {
		t.Fatal(err)
	}
	return out.Bytes()
}

// Numbers, also those read from a file, are numbers with a format of their kind; codes stay
// text; what is missing is blank. By hand: October 1, 2027 is day 46661 as spreadsheets count.
func TestValuesAreOfTheirKind(t *testing.T) {
	book, err := excelize.OpenReader(bytes.NewReader(written(t)))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	for at, want := range map[string]struct {
		shown, raw string
		number     bool
	}{
		"A4": {"0417", "0417", false}, "C4": {"1,234", "1234", true}, "D4": {"1,234.50", "1234.5", true}, "E4": {"$1,234,568", "1234567.89", true}, "F4": {"$12.35", "12.345", true}, "G4": {"13%", "0.125", true},
		"H4": {"Oct 1, 2027", "46661", true}, "I4": {"2026", "2026", true}, "E5": {"-$3.46", "-3.456", true}, "H5": {"unknown", "unknown", false}, "F5": {"", "", false}, "C6": {"1,235", "1235", true},
	} {
		shown, _ := book.GetCellValue("First", at)
		raw, _ := book.GetCellValue("First", at, excelize.Options{RawCellValue: true})
		kind, _ := book.GetCellType("First", at)
		number := kind != excelize.CellTypeInlineString && kind != excelize.CellTypeSharedString && raw != ""
		if shown != want.shown || raw != want.raw || number != want.number {
			t.Errorf("%s: shown %q, stored %q, a number: %t; want %+v", at, shown, raw, number, want)
		}
	}
	if text, _ := book.GetCellValue("First", "A8"); text != "One below." {
		t.Errorf("below the table stands %q", text)
	}
}

// Heads stay in sight, have filters over the list without its total, and stand on every
// printed page, which is one page wide and across; columns are as wide as their figures.
func TestSheetsArePreparedForWorkAndPrint(t *testing.T) {
	book, err := excelize.OpenReader(bytes.NewReader(written(t)))
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	names := map[string]string{}
	for _, n := range book.GetDefinedName() {
		names[n.Scope+" "+n.Name] = n.RefersTo
	}
	for _, one := range []struct {
		sheet, filter, titles string
		frozen                int
	}{{"First", "First!$A$3:$I$5", "First!$3:$3", 3}, {"It's second", "'It''s second'!$A$2:$A$3", "'It''s second'!$2:$2", 2}} {
		panes, err := book.GetPanes(one.sheet)
		if err != nil || !panes.Freeze || panes.YSplit != one.frozen {
			t.Errorf("%s: panes %+v, %v", one.sheet, panes, err)
		}
		layout, err := book.GetPageLayout(one.sheet)
		if err != nil || *layout.Orientation != "landscape" || *layout.FitToWidth != 1 || *layout.FitToHeight != 0 {
			t.Errorf("%s: layout %+v, %v", one.sheet, layout, err)
		}
		props, err := book.GetSheetProps(one.sheet)
		if err != nil || props.FitToPage == nil || !*props.FitToPage {
			t.Errorf("%s: %+v, %v", one.sheet, props, err)
		}
		plain := strings.NewReplacer("'", "", "$", "")
		if got := names[one.sheet+" _xlnm._FilterDatabase"]; plain.Replace(got) != plain.Replace(one.filter) {
			t.Errorf("%s: filter %q, want %q", one.sheet, got, one.filter)
		}
		if got := names[one.sheet+" _xlnm.Print_Titles"]; plain.Replace(got) != plain.Replace(one.titles) {
			t.Errorf("%s: titles %q, want %q; all %v", one.sheet, got, one.titles, names)
		}
	}
	for column, least := range map[string]float64{"A": 7, "E": 11, "H": 12} {
		if width, err := book.GetColWidth("First", column); err != nil || width < least || width > 2*least {
			t.Errorf("column %s is %v wide, %v", column, width, err)
		}
	}
	style, _ := book.GetCellStyle("First", "C3")
	if look, err := book.GetStyle(style); err != nil || !look.Font.Bold {
		t.Errorf("a head is not bold: %+v, %v", look, err)
	}
	if height, err := book.GetRowHeight("First", 4); err != nil || height < 3*lineHeight {
		t.Errorf("words of several lines stand in a row of %v points, %v", height, err)
	}
}

// The same tables give the same bytes.
func TestSameBytes(t *testing.T) {
	if first, second := written(t), written(t); !bytes.Equal(first, second) {
		t.Error("two workbooks of the same tables differ")
	}
}

// A name of a sheet that the library does not take is an error that names it.
func TestWrongName(t *testing.T) {
	tables := invented()
	tables[1].Name = "a/b"
	if err := Write(&bytes.Buffer{}, tables, nil); err == nil {
		t.Error("no error")
	}
}
