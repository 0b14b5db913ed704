package farmtable_test

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// A cell of TRUE or FALSE is no number: a workbook stores it as 1 or 0, and 1 acre of
// base, or a share of 1, would be answered as if it had been typed. Where a yes or no
// belongs it is one. Numbers 1 and 0 beside it stay numbers.
func TestTruthIsNoNumber(t *testing.T) {
	heading := []any{"farm", "county", "commodity", "base_acres", "payment_yield", "share", "irrigated_share", "stax_bought", "idle_2009_2017"}
	good := []any{"0417", "99001", "corn", 120, 150, 1, 0, true, false}
	rows, refused := readAll(t, putWorkbook(t, "farms", [][]any{heading, good}))
	require.Empty(t, refused)
	require.Len(t, rows, 1)
	require.Equal(t, 1.0, *rows[0].Share)
	require.Equal(t, 0.0, *rows[0].IrrigatedShare)
	require.True(t, *rows[0].STAXBought)
	require.False(t, *rows[0].Idle20092017)
	for at, name := range []string{"farm", "county", "commodity", "base_acres", "payment_yield", "share", "irrigated_share"} {
		for value, shown := range map[bool]string{true: "TRUE", false: "FALSE"} {
			bad := append([]any(nil), good...)
			bad[at] = value
			rows, refused := readAll(t, putWorkbook(t, "farms", [][]any{heading, good, nil, bad}))
			require.Len(t, rows, 1, "%s %s", name, shown)
			require.Len(t, refused, 1, "%s %s", name, shown)
			f := refused[0]
			require.Equal(t, []any{4, name, shown}, []any{f.Line, f.Column, f.Value})
			require.Contains(t, f.Reason, name+" is "+shown+", a yes or no")
			require.Contains(t, f.Hint, "type the value itself")
		}
	}
}

// The same words in text, as a spreadsheet program saves such a cell; a person may be
// named so.
func TestTruthInText(t *testing.T) {
	rows, refused := readAll(t, put(t, "farms.csv", text(t, grid(but(cells{"share": "TRUE"}), but(cells{"farm": "false"}), but(cells{"producer": "True", "tract": "2"})))))
	require.Len(t, rows, 1)
	require.Equal(t, "True", rows[0].Producer)
	require.Len(t, refused, 2)
	for i, column := range []string{"share", "farm"} {
		require.Equal(t, column, refused[i].Column)
		require.True(t, strings.HasSuffix(refused[i].Reason, ", a yes or no"), refused[i].Reason)
	}
}
