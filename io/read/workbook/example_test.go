package workbook_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"github.com/xuri/excelize/v2"

	"fencerow/io/read/workbook"
)

// The sheet of a workbook that is asked for, line by line; the others are noted.
func ExampleLines() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	path, made := filepath.Join(folder, "farms.xlsx"), excelize.NewFile()
	made.NewSheet("farms")
	made.SetSheetRow("farms", "A1", &[]any{"farm", "base_acres"})
	made.SetSheetRow("farms", "A2", &[]any{"0417", 120})
	if err := made.SaveAs(path); err != nil {
		fmt.Println(err)
		return
	}
	found, _, err := workbook.Lines(path, "farms")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer found.Close()
	for line, err := found.Next(); err != io.EOF; line, err = found.Next() {
		fmt.Println(line.Number, line.Cells, err)
	}
	// Output:
	// 1 [farm base_acres] <nil>
	// 2 [0417 120] <nil>
}
