package file_test

import (
	"fmt"
	"io"
	"os"
	"path/filepath"

	"fencerow/io/file"
)

// A run reads farms.csv: it may write report.txt, and not farms.csv.
func ExampleRun_Write() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		panic(err)
	}
	defer os.RemoveAll(folder)
	farms, report := filepath.Join(folder, "farms.csv"), filepath.Join(folder, "report.txt")
	os.WriteFile(farms, []byte("farm\n0417\n"), 0o644)

	run := file.NewRun(farms)
	write := func(w io.Writer) error { _, err := fmt.Fprintln(w, "one farm"); return err }
	fmt.Println(run.Write(report, write))
	if err, refused := run.Write(farms, write).(*file.Error); refused {
		fmt.Println(err.Hint)
	}
	text, err := os.ReadFile(report)
	fmt.Printf("%s%v\n", text, err)
	// Output:
	// <nil>
	// name another file: inputs are never written over
	// one farm
	// <nil>
}
