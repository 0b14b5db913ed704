package source_test

import (
	"fmt"
	"reflect"
	"testing"
	"testing/fstest"

	"fencerow/io/read/farmtable"
	"fencerow/io/source"
	"fencerow/program/crop"
)

// Every file that a question names is among its inputs, beside the operation those that it
// names, also a market file that the request puts another before: nothing is written over
// any of them.
func TestInputs(t *testing.T) {
	all := house()
	all["asked.yaml"] = files["market.yaml"]
	r := source.Request{Files: all, Operation: "home/operation.yaml", CountyFiles: []string{"named.yaml"}, CountyFolder: "counties", Counties: []string{"99003", "counties/a.yaml"},
		CountyTables: []string{"table.xlsx"}, Tables: tables{}, Book: &book{}, BookName: "counties.db", Market: "asked.yaml", Today: today}
	found, err := source.Question(r)
	if err != nil {
		t.Fatal(err)
	}
	want := []source.Input{{What: "operation file", Name: "home/operation.yaml"}, {What: "county file", Name: "home/own.yaml"}, {What: "county file", Name: "counties/a.yaml"}, {What: "county file", Name: "named.yaml"},
		{What: "county folder", Name: "counties", Files: []string{"counties/a.yaml"}}, {What: "county table", Name: "table.xlsx"}, {What: "county book", Name: "counties.db"},
		{What: "market file", Name: "asked.yaml"}, {What: "market file", Name: "home/market.yaml"}}
	if !reflect.DeepEqual(found.Inputs, want) {
		t.Errorf("inputs %+v\nwant %+v", found.Inputs, want)
	}
	if found, err = source.Question(source.Request{OperationText: files["operation.yaml"].Data, Files: files, Operation: "typed.yaml", Today: today}); err != nil || fmt.Sprint(found.Inputs) != "[{market file market.yaml []}]" {
		t.Errorf("of a text: %+v, %v", found.Inputs, err)
	}
}

// A folder without county files is said before anything is read.
func TestFolderWithoutCountyFiles(t *testing.T) {
	empty := fstest.MapFS{"empty/readme.txt": {Data: []byte("x")}}
	_, err := source.Question(source.Request{Files: empty, CountyFolder: "empty", Today: today})
	wrong(t, err, "county-folder", "empty holds no .yaml file", "name a folder")
	_, err = source.Question(source.Request{Files: empty, CountyFolder: "absent", Operation: "absent.yaml", Today: today})
	wrong(t, err, "county-folder", "cannot be read", "name a folder")
}

// A table of farms is opened row by row for whoever answers many.
func TestOpenFarms(t *testing.T) {
	for _, name := range []string{"farms.csv", "farms.xlsx"} {
		rows, err := source.OpenFarms(house(), tables{}, name, func(string, string) (string, bool) { return "99001", true }, farmtable.Profile{})
		if err != nil {
			t.Fatal(err)
		}
		row, refused, err := rows.Next()
		if err != nil || len(refused) > 0 || row.Commodity != crop.Corn || row.BaseAcres != 100 || row.County != "99001" {
			t.Errorf("%s: %+v, %v, %v", name, row, refused, err)
		}
		rows.Close()
	}
	if _, err := source.OpenFarms(house(), nil, "farms.xlsx", nil, farmtable.Profile{}); err == nil {
		t.Error("a spreadsheet was opened by nobody")
	}
}
