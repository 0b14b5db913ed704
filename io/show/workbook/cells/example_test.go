package cells_test

import (
	"bytes"
	"fmt"

	"fencerow/io/show/workbook/cells"
)

// A price that can be changed, and a formula that follows it: 120 acres at $0.42 are $50.40.
func ExampleWrite() {
	s := cells.NewSheet("Sums", 20, 12)
	s.Add(cells.Plain("rate, $ an acre"), cells.Input(cells.MoneyFormat, 0.42))
	s.Name(s.Last(2), "rate")
	s.Add(cells.Plain("in all, $"), s.Calc(cells.MoneyFormat, "?*120", s.Last(2)))
	found, err := cells.Evaluate([]*cells.Sheet{s})
	fmt.Println(found[s.Last(2)], err)
	var out bytes.Buffer
	fmt.Println(cells.Write(&out, []*cells.Sheet{s}, found), out.Len() > 0)
	// Output:
	// 50.4 <nil>
	// <nil> true
}
