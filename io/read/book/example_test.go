package book_test

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"fencerow/io/read/book"
)

// An agency's file goes into a county book once; then it is a source of county yields.
func Example() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	report := filepath.Join(folder, "RMACountyYields.csv")
	os.WriteFile(report, []byte(`Commodity Code,Commodity Name,State Code,State Name,State Abbreviation,County Code,County Name,Irrigation Practice Code,Irrigation Practice Name,Yield Year,Yield Amount
0041, Corn, 99, Nowhere, ZZ, 001, Alder, 003, Non-Irrigated, 2025, 148.00
`), 0o600)
	b, err := book.Open(filepath.Join(folder, "counties.db"), true)
	if err != nil {
		fmt.Println(err)
		return
	}
	defer b.Close()
	for range 2 {
		done, err := b.Import(report, time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), true)
		fmt.Println(done.Agency, done.Figures, done.Already, err)
	}
	sources, err := b.Sources("99001")
	fmt.Println(len(sources), sources[0].Counties["99001"].Yields[0].Insured[2025], err)
	// Output:
	// RMA 1 false <nil>
	// RMA 1 true <nil>
	// 1 148 <nil>
}
