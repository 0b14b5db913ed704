package table_test

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"github.com/xuri/excelize/v2"

	"fencerow/io/read/table"
)

// The agency's county table of 2014, with one line of an invented county. A county, crop and
// practice is one entry of yields; what is not published is missing, never zero.
func ExampleRead() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	path, sheet := filepath.Join(folder, "county.xlsx"), excelize.NewFile()
	sheet.SetSheetRow("Sheet1", "A1", &[]any{"ST_Cty", "State Name", "County Name", "Crop Name", "Unit", "Yield Designation",
		"2014 Bench Mark \n(2009-13 olympic avg)", "2014 Bench Mark Price", "2014 Benchmark Revenue", "2014 Guarantee Revenue", "2014 Maximum Payment Rate",
		"2014 Actual Yield", "2014 National Price", "2014 Actual Revenue", "2014 Formula Payment Rate", "2014 ARC-CO Payment Rate"})
	sheet.SetSheetRow("Sheet1", "A2", &[]any{"99003", "Nowhere", "Birch", "Corn", "Bushel", "All", 150, 5.29, 793.5, 682.41, 79.35, nil, 3.70, nil, nil, nil})
	if err := sheet.SaveAs(path); err != nil {
		fmt.Println(err)
		return
	}
	source, notes, err := table.Read(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	y := source.Counties["99003"].Yields[0]
	fmt.Println(source.Counties["99003"].Name, y.Commodity, y.Practice, y.BenchmarkYield[2014], len(y.Actual), len(notes))
	// Output: Birch corn all 150 0 0
}

// The agency's small tables of prices, with one invented line: F is a final price, P a
// projected one.
func ExampleReadPrices() {
	folder, err := os.MkdirTemp("", "example")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	path, sheet := filepath.Join(folder, "prices.xlsx"), excelize.NewFile()
	for i, line := range [][]any{{"TABLE 3. PLC payment rates"}, {"November 10, 2026"},
		{"Commodity", "Unit", "Projected (P) or Final (F) 2025/26 MYA Price", "Flag"}, {"Corn 1/", "Bushel", 4.15, "F"}} {
		sheet.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &line)
	}
	if err := sheet.SaveAs(path); err != nil {
		fmt.Println(err)
		return
	}
	t, err := table.ReadPrices(path)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(t.Number, t.AsOf.Format(time.DateOnly), t.Prices[0].Commodity, t.Prices[0].CropYear, t.Prices[0].Price, t.Prices[0].Final)
	// Output: 3 2026-11-10 corn 2025 4.15 true
}
