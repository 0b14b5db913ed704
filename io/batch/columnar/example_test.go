package columnar_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"fencerow/io/batch/columnar"
)

type farm struct {
	Number string  `parquet:"farm"`
	Acres  float64 `parquet:"base_acres"`
}

// Two files of one farm each are joined: 120 and 80 base acres are 200.
func Example() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	var names []string
	var w columnar.Writer[farm]
	for i, one := range []farm{{"0417", 120}, {"0588", 80}} {
		var b bytes.Buffer
		err := w.Write(&b, []farm{one})
		names = append(names, filepath.Join(folder, fmt.Sprint(i)))
		fmt.Println(err, os.WriteFile(names[i], b.Bytes(), 0o600))
	}
	acres := 0.0
	err = columnar.Join(&bytes.Buffer{}, [][]string{names}, func(a, b farm) bool { return a.Number < b.Number }, func(f farm) { acres += f.Acres })
	fmt.Println(acres, err)
	// Output:
	// <nil> <nil>
	// <nil> <nil>
	// 200 <nil>
}
