package workbook

import (
	"bytes"
	"reflect"
	"testing"

	"github.com/tiendc/go-deepcopy"
	"github.com/xuri/excelize/v2"
)

// sheetLike has every kind of field that excelize copies: attributes by value and by
// pointer, slices of both, maps and nested structs.
type sheetLike struct {
	Name    string
	Width   *float64
	Columns []*sheetLike
	Cells   [][2]int
	Styles  map[string][]int
	Of      struct{ Any any }
	Nothing *sheetLike
	hidden  int
}

// A copy is equal and shares no memory: whatever is changed in it, the original stays.
func TestCopySharesNothing(t *testing.T) {
	made := func() sheetLike {
		width := 8.5
		one := sheetLike{Name: "a", Width: &width, Cells: [][2]int{{1, 2}}, Styles: map[string][]int{"x": {3}}, Columns: []*sheetLike{{Name: "b"}}}
		one.Of.Any = []string{"inside"}
		return one
	}
	original := made()
	for name, src := range map[string]any{"a value": original, "a pointer": &original} {
		var found sheetLike
		if err := deepcopy.Copy(&found, src); err != nil || !reflect.DeepEqual(found, original) {
			t.Fatalf("%s: %+v, %v, want %+v", name, found, err, original)
		}
		*found.Width, found.Columns[0].Name, found.Cells[0][0], found.Styles["x"][0] = 1, "changed", 9, 9
		found.Of.Any.([]string)[0] = "changed"
		if !reflect.DeepEqual(original, made()) {
			t.Errorf("%s: the original became %+v", name, original)
		}
	}
	var other struct{ Name string }
	for _, c := range []struct{ dst, src any }{{other, original}, {&other, original}, {(*sheetLike)(nil), original}, {&other, nil}, {nil, original}, {&original, (*sheetLike)(nil)}} {
		if err := deepcopy.Copy(c.dst, c.src); err == nil {
			t.Errorf("%T was copied to %T", c.src, c.dst)
		}
	}
	hidden := sheetLike{hidden: 1}
	if err := deepcopy.Copy(&other, struct{ Name string }{"n"}); err != nil || other.Name != "n" {
		t.Error(other, err)
	}
	if err := deepcopy.Copy(&original, hidden); err != nil || original.hidden != 0 {
		t.Error("a field that is not exported was copied", err)
	}
}

// What excelize copies by it comes out whole: a sheet copied within a workbook, and widths
// of columns over a range.
func TestExcelizeCopies(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	must := func(err error) {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
	}
	must(book.SetCellValue("Sheet1", "B2", "text"))
	must(book.SetColWidth("Sheet1", "A", "D", 20))
	must(book.SetColWidth("Sheet1", "B", "C", 30))
	second, err := book.NewSheet("Second")
	must(err)
	must(book.CopySheet(0, second))
	var into bytes.Buffer
	must(book.Write(&into))
	again, err := excelize.OpenReader(&into)
	must(err)
	defer again.Close()
	for _, sheet := range []string{"Sheet1", "Second"} {
		for column, want := range map[string]float64{"A": 20, "B": 30, "C": 30, "D": 20} {
			if got, err := again.GetColWidth(sheet, column); err != nil || got != want {
				t.Errorf("%s, column %s is %v wide, %v, want %v", sheet, column, got, err, want)
			}
		}
		if got, err := again.GetCellValue(sheet, "B2"); err != nil || got != "text" {
			t.Errorf("%s: %q, %v", sheet, got, err)
		}
	}
}
