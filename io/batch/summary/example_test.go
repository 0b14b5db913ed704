package summary_test

import (
	"bytes"
	"fmt"

	"github.com/xuri/excelize/v2"

	"fencerow/io/batch/summary"
)

// A sheet of one farm: the dollars, read from a file as text, are a number, shown without
// cents.
func ExampleWrite() {
	var out bytes.Buffer
	err := summary.Write(&out, []summary.Table{{
		Name: "Farms", Columns: []summary.Column{{Head: "farm"}, {Head: "dollars after limits", Kind: summary.Dollars}}, Rows: [][]any{{"0417", "3100.40"}},
	}}, []string{"Not advice."})
	if err != nil {
		fmt.Println(err)
		return
	}
	book, err := excelize.OpenReader(&out)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer book.Close()
	rows, err := book.GetRows("Farms")
	fmt.Println(rows, err)
	// Output: [[Farms] [farm dollars after limits] [0417 $3,100] [] [Not advice.]] <nil>
}
