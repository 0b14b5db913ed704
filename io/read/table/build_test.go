package table

import (
	"fmt"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"
)

// The workbooks of these tests are built here, in the agency's layouts, with
// invented counties (state code 99 is no state).

// lines are the cells of a sheet from A1; nil is an empty cell.
type lines [][]any

type testSheet struct {
	name  string
	lines lines
}

// build writes a workbook into a temporary folder and returns its path.
func build(t testing.TB, sheets ...testSheet) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	for i, s := range sheets {
		if i == 0 {
			require.NoError(t, book.SetSheetName("Sheet1", s.name))
		} else {
			_, err := book.NewSheet(s.name)
			require.NoError(t, err)
		}
		w, err := book.NewStreamWriter(s.name)
		require.NoError(t, err)
		for n, cells := range s.lines {
			if len(cells) > 0 {
				require.NoError(t, w.SetRow(fmt.Sprintf("A%d", n+1), cells))
			}
		}
		require.NoError(t, w.Flush())
	}
	path := filepath.Join(t.TempDir(), "county.xlsx")
	require.NoError(t, book.SaveAs(path))
	return path
}

// top2020 are the four lines above the data in the tables of 2020 and later.
func top2020(y int) lines {
	span := fmt.Sprintf("(%d-%02d olympic avg)", y-6, (y-2)%100)
	headings := []any{"ST_Cty", "State Name", "County Name", "Sub County", "Crop Name", "Unit", "ARC-CO Yield Designation"}
	for lag := 6; lag >= 2; lag-- {
		headings = append(headings, fmt.Sprintf("%d trend adjusted\n(county yield or 80%% of T)", y-lag))
	}
	headings = append(headings, nil,
		fmt.Sprintf("%d Bench Mark \n%s", y, span), fmt.Sprintf("%d Bench Mark  Price %s", y, span), fmt.Sprintf("%d Benchmark Revenue", y),
		fmt.Sprintf("%d Guarantee Revenue", y), fmt.Sprintf(" %d Maximum Payment Rate", y), fmt.Sprintf("%d Actual Yield", y),
		fmt.Sprintf("%d National Price", y), fmt.Sprintf("%d Actual Revenue", y), fmt.Sprintf("%d Formula Payment Rate", y), fmt.Sprintf("%d ARC-CO Payment Rate", y))
	return lines{{"ARC-CO TREND ADJUSTED YIELDS"}, {nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, nil, "A", "B"}, nil, headings}
}

// corn2020 is a line in the layout of 2020 and later with the figures of a
// corn county: benchmark 187.30 x 4.80 = 899.04, 86 percent 773.17, 10 percent
// 89.90; 170.00 x 4.50 = 765.00; 773.17 - 765.00 = 8.17.
func corn2020(code any, name string) []any {
	return []any{code, "Nowhere", name, nil, "Corn", "Bushel", "All",
		184.20000000000002, 187, 193.10, 178.43, 190.70, nil,
		187.30000000000001, 4.7999999999999998, 899.04, 773.16999999999996, 89.9, 170, 4.5, 765, 8.1699999999999999, 8.17}
}

// with returns a copy of a line with one cell, counted from A, changed.
func with(line []any, column string, value any) []any {
	changed := append([]any(nil), line...)
	n, err := excelize.ColumnNameToNumber(column)
	if err != nil {
		panic(err)
	}
	changed[n-1] = value
	return changed
}
