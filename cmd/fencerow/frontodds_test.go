package main

import (
	"encoding/json"
	"math"
	"path/filepath"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// The workbook's first sheet has the odds that were asked for, by whatever model: what
// ARC-CO averages on corn in Alder County does not depend on the farm.
func TestFrontHasTheModelAskedFor(t *testing.T) {
	for _, model := range [][]string{nil, {"--model", "history"}, {"--tail", "t"}, {"--seed", "7"}} {
		path := filepath.Join(t.TempDir(), "book.xlsx")
		args := append([]string{"compare", "--demo", "--crop-year", "2026", "--draws", "1024", "--json", "--workbook", path}, model...)
		var c struct {
			CropYears []struct {
				Farms []struct {
					Commodities []struct {
						Programs map[string]struct{ Mean float64 }
					}
				}
			} `json:"crop_years"`
		}
		if err := json.Unmarshal([]byte(runs(t, args...)), &c); err != nil {
			t.Fatal(err)
		}
		book, err := excelize.OpenFile(path)
		if err != nil {
			t.Fatal(err)
		}
		want, got := c.CropYears[0].Farms[0].Commodities[0].Programs["ARC-CO"].Mean, namedCell(t, book, "arc_co_average")
		if math.Abs(got-want) > 0.005+1e-9 || want == 0 {
			t.Errorf("%v: Front has %v, JSON %v", model, got, want)
		}
		book.Close()
	}
}

// namedCell is the number in a named cell.
func namedCell(t *testing.T, book *excelize.File, name string) float64 {
	t.Helper()
	for _, n := range book.GetDefinedName() {
		if n.Name != name {
			continue
		}
		sheet, cell, _ := strings.Cut(n.RefersTo, "!")
		text, err := book.GetCellValue(strings.Trim(sheet, "'"), strings.ReplaceAll(cell, "$", ""), excelize.Options{RawCellValue: true})
		x, bad := strconv.ParseFloat(text, 64)
		if err != nil || bad != nil {
			t.Fatalf("%s holds %q", name, text)
		}
		return x
	}
	t.Fatalf("no cell is named %s", name)
	return 0
}
