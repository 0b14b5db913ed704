package farmtable_test

import (
	"bytes"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/parquet-go/parquet-go"
	"github.com/stretchr/testify/require"
	"github.com/xuri/excelize/v2"

	"fencerow/io/read/farmfile"
	. "fencerow/io/read/farmtable"
)

// farmRecord is a row of a parquet file with numbers as numbers, and with
// columns in another order than ours.
type farmRecord struct {
	BaseAcres  float64  `parquet:"base_acres"`
	Yield      *int32   `parquet:"payment_yield,optional"`
	County     int64    `parquet:"county"`
	Farm       string   `parquet:"farm"`
	Commodity  string   `parquet:"commodity,dict"`
	Irrigated  *float32 `parquet:"irrigated_share,optional"`
	STAX       *bool    `parquet:"stax_bought,optional"`
	CropYear   int32    `parquet:"crop_year"`
	TotalAcres int64    `parquet:"total_acres,decimal(2:10)"`
	Remarks    []string `parquet:"lease,list"`
	Inside     struct {
		Acres float64 `parquet:"acres"`
	} `parquet:"base"`
}

// The same table as text, as a workbook and as a parquet file gives the same
// rows; numbers may be numbers or text.
func TestFormsGiveEqualRows(t *testing.T) {
	lines := [][]string{
		{"farm", "county", "commodity", "base_acres", "payment_yield", "irrigated_share", "stax_bought", "crop_year", "total_acres"},
		{"0417", "99001", "corn", "120.5", "150", "0.35", "", "2026", "250.5"},
		{"0417", "99001", "CORN", "0", "150", "", "", "2026", "250.5"}, // refused
		{"0417", "99001", "Seed Cotton", "80", "", "", "yes", "2026", "250.5"},
	}
	want, refused := readAll(t, put(t, "farms.csv", text(t, lines)))
	require.Len(t, want, 2)
	require.Len(t, refused, 1)

	asText, asNumbers := [][]any{}, [][]any{}
	for _, line := range lines {
		row := []any{}
		for _, cell := range line {
			row = append(row, cell)
		}
		asText = append(asText, row)
	}
	asNumbers = append(asNumbers, asText[0],
		[]any{"0417", 99001, "corn", 120.5, 150, 0.35, nil, 2026, 250.5},
		[]any{"0417", 99001, "CORN", 0, 150, nil, nil, 2026, 250.5},
		[]any{"0417", 99001, "Seed Cotton", 80, nil, nil, true, 2026, 250.5})
	records := []farmRecord{
		{Farm: "0417", County: 99001, Commodity: "corn", BaseAcres: 120.5, Yield: pointer(int32(150)), Irrigated: pointer(float32(0.35)), CropYear: 2026, TotalAcres: 25050},
		{Farm: "0417", County: 99001, Commodity: "CORN", Yield: pointer(int32(150)), CropYear: 2026, TotalAcres: 25050, Remarks: []string{"a", "b"}},
		{Farm: "0417", County: 99001, Commodity: "Seed Cotton", BaseAcres: 80, STAX: pointer(true), CropYear: 2026, TotalAcres: 25050},
	}
	for form, path := range map[string]string{
		"workbook of text":                  putWorkbook(t, "Sheet9", asText),
		"workbook of numbers":               putWorkbook(t, "farms", asNumbers),
		"parquet":                           putParquet(t, records),
		"csv with another ending in case":   put(t, "FARMS.CSV", text(t, lines)),
		"csv with semicolons and CR LF":     put(t, "farms.csv", string(bytes.ReplaceAll(bytes.ReplaceAll([]byte(text(t, lines)), []byte(","), []byte(";")), []byte("\n"), []byte("\r\n")))),
		"csv with tabs and byte order mark": put(t, "farms.csv", "\ufeff"+string(bytes.ReplaceAll([]byte(text(t, lines)), []byte(","), []byte("\t")))),
	} {
		t.Run(form, func(t *testing.T) {
			got, refusedHere := readAll(t, path)
			require.Len(t, refusedHere, 1)
			require.Equal(t, refused[0].Reason, refusedHere[0].Reason)
			require.Equal(t, withoutLines(want), withoutLines(got))
		})
	}
}

func withoutLines(rows []Row) []Row {
	bare := []Row{}
	for _, row := range rows {
		row.Line = 0
		bare = append(bare, row)
	}
	return bare
}

// Rows of a parquet file over several groups and batches are all read, in order.
func TestParquetGroups(t *testing.T) {
	type record struct {
		Farm, County, Commodity string
		BaseAcres               float64 `parquet:"base_acres"`
	}
	path := filepath.Join(t.TempDir(), "farms.parquet")
	file, err := os.Create(path)
	require.NoError(t, err)
	w := parquet.NewGenericWriter[record](file)
	for group := range 3 {
		for i := range 700 {
			_, err := w.Write([]record{{"farm", "99001", "corn", float64(1 + group*700 + i)}})
			require.NoError(t, err)
		}
		require.NoError(t, w.Flush())
	}
	require.NoError(t, w.Close())
	require.NoError(t, file.Close())
	rows, refused := readAll(t, path)
	require.Empty(t, refused)
	require.Len(t, rows, 2100)
	for i, row := range rows {
		require.Equal(t, float64(i+1), row.BaseAcres)
		require.Equal(t, i+1, row.Line)
		require.Equal(t, "farm", row.Farm)
	}
}

// Every shortening of a parquet file and a workbook is read or refused, without
// a panic.
func TestDamagedFiles(t *testing.T) {
	for _, path := range []string{
		putParquet(t, []farmRecord{{Farm: "1", County: 99001, Commodity: "corn", BaseAcres: 1}}),
		putWorkbook(t, "farms", [][]any{{"farm", "county", "commodity", "base_acres"}, {"1", "99001", "corn", 1}}),
	} {
		content, err := os.ReadFile(path)
		require.NoError(t, err)
		for cut := 0; cut < len(content); cut += 97 {
			_, _, err := readTable(put(t, filepath.Base(path), string(content[:cut])))
			wantMistake(t, err, "")
		}
		for at := 0; at < len(content); at += 31 {
			changed := bytes.Clone(content)
			changed[at] ^= 0x55
			if _, _, err := readTable(put(t, filepath.Base(path), string(changed))); err != nil {
				wantMistake(t, err, "")
			}
		}
	}
}

// The template is a table of good rows, and explains every column.
func TestTemplate(t *testing.T) {
	path := filepath.Join(t.TempDir(), "template.xlsx")
	file, err := os.Create(path)
	require.NoError(t, err)
	require.NoError(t, farmfile.WriteTemplate(file, false))
	require.NoError(t, file.Close())
	rows, refused := readAll(t, path)
	require.Empty(t, refused)
	require.Len(t, rows, 2)
	found, refused := Assemble(rows)
	require.Empty(t, refused)
	require.Len(t, found.Farms.Farms, 1)
	require.Equal(t, "0417", found.Farms.Farms[0].Number)
	formats, err := os.ReadFile("../../../docs/formats.md")
	require.NoError(t, err)
	for _, c := range Explanations(false) {
		require.NotEmpty(t, c.Unit, c.Name)
		require.NotEmpty(t, c.Meaning, c.Name)
		require.NotEmpty(t, c.Example, c.Name)
		required := "no"
		if c.Required {
			required = "yes"
		}
		if line := "| `" + c.Name + "` | " + c.Unit + " | " + required + " | " + c.Meaning + " |\n"; !strings.Contains(string(formats), line) {
			t.Errorf("docs/formats.md, Table of farms, lacks the line %s", line)
		}
	}
}

// The template with area insurance has all its columns, is a table of good rows, and explains
// each column as the documentation does. The template without says that there are more.
func TestTemplateWithInsurance(t *testing.T) {
	folder := t.TempDir()
	path, plain := filepath.Join(folder, "insured.xlsx"), filepath.Join(folder, "plain.xlsx")
	for name, insured := range map[string]bool{path: true, plain: false} {
		file, err := os.Create(name)
		require.NoError(t, err)
		require.NoError(t, farmfile.WriteTemplate(file, insured))
		require.NoError(t, file.Close())
	}
	rows, said, err := farmfile.Lines(path)
	require.NoError(t, err)
	table, err := Open(path, rows, said, nil, Profile{}.WithInsurance())
	require.NoError(t, err)
	found, _, err := ReadOperation(path, table, false)
	require.NoError(t, err)
	require.Len(t, found.Farms, 1)
	require.Len(t, found.Farms[0].Insurance, 1)
	require.Equal(t, 110.0, found.Farms[0].Insurance[0].Acres)
	formats, err := os.ReadFile("../../../docs/formats.md")
	require.NoError(t, err)
	named := Explanations(true)[len(Columns()):]
	require.Len(t, named, len(InsuranceColumns()))
	for i, c := range named {
		require.Equal(t, InsuranceColumns()[i], c.Name)
		if line := "| `" + c.Name + "` | " + c.Unit + " | " + c.Meaning + " |\n"; !strings.Contains(string(formats), line) {
			t.Errorf("docs/formats.md, Area insurance in a table, lacks the line %s", line)
		}
	}
	for name, insured := range map[string]bool{path: true, plain: false} {
		book, err := excelize.OpenFile(name)
		require.NoError(t, err)
		defer book.Close()
		explained, err := book.GetRows("explanations")
		require.NoError(t, err)
		require.Equal(t, len(Explanations(insured))+1, len(explained)-map[bool]int{false: 1}[insured], name)
		require.Equal(t, !insured, strings.Contains(strings.Join(explained[len(explained)-1], " "), "27 more columns"))
	}
}

// Lines of a workbook keep their numbers over rows that are left empty, and the
// sheet "farms" is found among others.
func TestWorkbookLines(t *testing.T) {
	book := excelize.NewFile()
	defer book.Close()
	_, err := book.NewSheet("Farms ")
	require.NoError(t, err)
	for cell, row := range map[string][]any{"A2": {"farm", "county", "commodity", "base_acres"}, "A5": {417, 99001, "corn", 120.5}, "A9": {418, 99001, "corn", -1}} {
		require.NoError(t, book.SetSheetRow("Farms ", cell, &row))
	}
	path := filepath.Join(t.TempDir(), "farms.xlsx")
	require.NoError(t, book.SaveAs(path))
	rows, refused := readAll(t, path)
	require.Len(t, rows, 1)
	require.Len(t, refused, 1)
	require.Equal(t, []int{5, 9}, []int{rows[0].Line, refused[0].Line})
	require.Equal(t, "417", rows[0].Farm)
}
