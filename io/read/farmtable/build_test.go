package farmtable_test

import (
	"encoding/csv"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
	"fencerow/program/farm"
)

// The tables of these tests are built here, with invented farms and counties
// (state code 99 is no state).

// cells are the values of a row by column; a good row overlaid with some.
type cells map[string]string

// alder is a good row.
var alder = cells{"client": "client 12", "operation": "home farms", "farm": "0417", "county": "99001", "commodity": "corn", "base_acres": "120", "payment_yield": "150"}

// but returns a good row with some values changed.
func but(changed cells) cells {
	row := cells{}
	for _, from := range []cells{alder, changed} {
		for name, value := range from {
			row[name] = value
		}
	}
	return row
}

// grid returns rows as lines of all columns, headings first.
func grid(rows ...cells) [][]string {
	lines := [][]string{Columns()}
	for _, row := range rows {
		line := make([]string, len(Columns()))
		for i, name := range Columns() {
			line[i] = row[name]
		}
		lines = append(lines, line)
	}
	return lines
}

// text writes lines as csv.
func text(t testing.TB, lines [][]string) string {
	t.Helper()
	var b strings.Builder
	w := csv.NewWriter(&b)
	require.NoError(t, w.WriteAll(lines))
	return b.String()
}

// put writes a file into a temporary folder and returns its path.
func put(t testing.TB, name, content string) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), name)
	require.NoError(t, os.WriteFile(path, []byte(content), 0o600))
	return path
}

// putWorkbook writes lines to a sheet; numbers as numbers where number says so.
func putWorkbook(t testing.TB, sheet string, lines [][]any) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	require.NoError(t, book.SetSheetName("Sheet1", sheet))
	for i, line := range lines {
		cell, err := excelize.CoordinatesToCellName(1, i+1)
		require.NoError(t, err)
		require.NoError(t, book.SetSheetRow(sheet, cell, &line))
	}
	path := filepath.Join(t.TempDir(), "farms.xlsx")
	require.NoError(t, book.SaveAs(path))
	return path
}

// putParquet writes records of a struct type to a parquet file.
func putParquet[T any](t testing.TB, records []T) string {
	t.Helper()
	path := filepath.Join(t.TempDir(), "farms.parquet")
	file, err := os.Create(path)
	require.NoError(t, err)
	w := parquet.NewGenericWriter[T](file)
	_, err = w.Write(records)
	require.NoError(t, err)
	require.NoError(t, w.Close())
	require.NoError(t, file.Close())
	return path
}

// counties knows two invented counties by name.
func counties(state, name string) (string, bool) {
	code, ok := map[string]string{"99 alder county": "99001", "99 birch": "99003"}[state+" "+strings.ToLower(name)]
	return code, ok
}

// readAll returns the good rows and all refusals of a table.
func readAll(t testing.TB, path string) (rows []Row, refused []Refusal) {
	t.Helper()
	rows, refused, err := readTable(path)
	require.NoError(t, err)
	return rows, refused
}

func readTable(path string) (rows []Row, refused []Refusal, err error) {
	r, err := farmfile.Open(path, counties)
	if err != nil {
		return nil, nil, err
	}
	defer r.Close()
	for {
		row, why, err := r.Next()
		if err == io.EOF {
			return rows, refused, nil
		}
		if err != nil {
			return rows, refused, err
		}
		if refused = append(refused, why...); len(why) == 0 {
			rows = append(rows, row)
		}
	}
}

// wantMistake holds that an error is one mistake with a part of its reason.
func wantMistake(t testing.TB, err error, reason string) {
	t.Helper()
	var mistakes farm.Mistakes
	require.True(t, errors.As(err, &mistakes), "%v is not farm.Mistakes", err)
	require.Contains(t, mistakes.Error(), reason)
	for _, m := range mistakes {
		require.NotEmpty(t, m.File)
		require.NotEmpty(t, m.Hint)
	}
}

func pointer[T any](v T) *T { return &v }
