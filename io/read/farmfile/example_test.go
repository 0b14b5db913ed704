package farmfile_test

import (
	"fmt"
	"os"
	"path/filepath"

	"fencerow/io/read/farmfile"
	"fencerow/io/read/farmtable"
)

// An empty workbook to fill in holds two invented rows of one farm, 120 and 80 base acres.
func ExampleWriteTemplate() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	path := filepath.Join(folder, "farms.xlsx")
	file, err := os.Create(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(farmfile.WriteTemplate(file, false), file.Close())
	rows, err := farmfile.Open(path, nil)
	if err != nil {
		fmt.Println(err)
		return
	}
	o, _, err := farmtable.ReadOperation(path, rows, false)
	fmt.Println(len(o.Farms), o.Farms[0].BaseAcres(), err)
	// Output:
	// <nil> <nil>
	// 1 200 <nil>
}

// The end of a name says how a table is read; others are refused before anything is opened.
func ExampleOpen() {
	_, err := farmfile.Open("farms.txt", nil)
	fmt.Println(err != nil)
	// Output: true
}
