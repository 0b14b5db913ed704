package office_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"

	"fencerow/io/batch/office"
)

// Two farms of a county: ARC-CO is 10 dollars ahead on 100 acres and 40 on 200, so 30 on
// average over 300 acres.
func ExampleSums() {
	folder, err := os.MkdirTemp("", "office")
	if err != nil {
		fmt.Println(err)
		return
	}
	defer os.RemoveAll(folder)
	for _, name := range []string{"operations.csv", "people.csv", "refused.csv", "exceptions.csv", "calls.csv"} {
		os.WriteFile(filepath.Join(folder, name), []byte("client\n"), 0o600)
	}
	ten, forty := 10.0, 40.0
	sums := office.NewSums()
	sums.Add(office.Line{Commodity: "corn", CropYear: 2026, Counties: "99001", BaseAcres: 100, Leader: "ARC-CO", Difference: &ten})
	sums.Add(office.Line{Commodity: "corn", CropYear: 2026, Counties: "99001", BaseAcres: 200, Leader: "ARC-CO", Difference: &forty})
	if err := sums.AddFiles(folder); err != nil {
		fmt.Println(err)
		return
	}
	var out bytes.Buffer
	err = sums.WriteCounties(&out, 1)
	fmt.Print(out.String(), err)
	// Output:
	// county,commodity,crop_year,farms,base_acres,difference_mean,lean_plc,lean_arc_co,close,little_chance
	// 99001,corn,2026,2,300.00,30.00,0,2,0,0
	// <nil>
}
