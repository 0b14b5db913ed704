package farmtable_test

import (
	"fmt"
	"io"
	"testing/fstest"

	"fencerow/io/read/farmtable"
)

const twoRows = `farm,county,commodity,crop_year,base_acres,payment_yield
0417,99001,corn,2026,120,150
0417,99001,soybeans,2026,-80,38
`

// table opens two rows of an invented farm, one of them wrong.
func table(text string) *farmtable.Reader {
	file, err := fstest.MapFS{"farms.csv": {Data: []byte(text)}}.Open("farms.csv")
	if err != nil {
		panic(err)
	}
	found, err := farmtable.CSV("farms.csv", file)
	if err != nil {
		panic(err)
	}
	rows, err := farmtable.Open("farms.csv", found, nil, nil, farmtable.Profile{})
	if err != nil {
		panic(err)
	}
	return rows
}

// A table of farms row by row; what is wrong with a row is reported, and the reading goes on.
func ExampleOpen() {
	rows := table(twoRows)
	defer rows.Close()
	for {
		row, refused, err := rows.Next()
		if err == io.EOF {
			break
		}
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Println("line", row.Line, row.FarmKey(), row.Commodity, row.BaseAcres, len(refused), "refused")
		for _, r := range refused {
			fmt.Printf("%s: %q\n", r.Column, r.Value)
		}
	}
	// Output:
	// line 2 99001-0417 corn 120 0 refused
	// line 3 99001-0417 soybeans 0 1 refused
	// base_acres: "-80"
}

// A whole table as one operation: here every row has to be right.
func ExampleReadOperation() {
	_, _, err := farmtable.ReadOperation("farms.csv", table(twoRows), false)
	fmt.Println(err != nil)
	o, _, err := farmtable.ReadOperation("farms.csv", table("farm,county,commodity,crop_year,base_acres\n0417,99001,corn,2026,120\n0417,99001,wheat,2026,80\n"), false)
	fmt.Println(len(o.Farms), o.Farms[0].BaseAcres(), err)
	// Output:
	// true
	// 1 200 <nil>
}
