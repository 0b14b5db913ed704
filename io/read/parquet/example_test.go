package parquet_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	library "github.com/parquet-go/parquet-go"

	"fencerow/io/read/parquet"
)

// A Parquet file line by line, as it would stand in a text file: the names of its columns
// first.
func ExampleOpen() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	type row struct {
		Farm      string  `parquet:"farm"`
		BaseAcres float64 `parquet:"base_acres"`
	}
	path := filepath.Join(folder, "farms.parquet")
	if err := library.WriteFile(path, []row{{"0417", 120}, {"0588", 95.5}}); err != nil {
		fmt.Println(err)
		return
	}
	found, err := parquet.Open(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer found.Close()
	for line, err := found.Next(); err != io.EOF; line, err = found.Next() {
		fmt.Println(line.Number, line.Cells, err)
	}
	// Output:
	// 0 [farm base_acres] <nil>
	// 1 [0417 120] <nil>
	// 2 [0588 95.5] <nil>
}
