// Command tables writes a CSV table as .xlsx or .parquet, to measure and to compare what
// reads such files.
//
//	go run ./testdata/peers/tables FROM.csv TO.xlsx [SHEET]
//	go run ./testdata/peers/tables FROM.csv TO.parquet
//
// Cells that are plain numbers without a zero before them become numbers of a workbook; in
// Parquet every column is text.
package main

import (
	"encoding/csv"
	"log"
	"os"
	"path/filepath"
	"regexp"
	"strconv"

	"github.com/parquet-go/parquet-go"
	"github.com/xuri/excelize/v2"
)

func main() {
	log.SetFlags(0)
	if len(os.Args) < 3 {
		log.Fatal("usage: tables FROM.csv TO.xlsx|TO.parquet [SHEET]")
	}
	rows, err := read(os.Args[1])
	if err == nil && filepath.Ext(os.Args[2]) == ".parquet" {
		err = writeParquet(os.Args[2], rows)
	} else if err == nil {
		sheet := "Sheet1"
		if len(os.Args) > 3 {
			sheet = os.Args[3]
		}
		err = writeWorkbook(os.Args[2], sheet, rows)
	}
	if err != nil {
		log.Fatal(err)
	}
}

func read(path string) ([][]string, error) {
	file, err := os.Open(path)
	if err != nil {
		return nil, err
	}
	defer file.Close()
	in := csv.NewReader(file)
	in.FieldsPerRecord = -1
	return in.ReadAll()
}

var number = regexp.MustCompile(`^(0|[1-9][0-9]*|0?\.[0-9]+|0\.[0-9]+|[1-9][0-9]*\.[0-9]+)$`)

func writeWorkbook(path, sheet string, rows [][]string) error {
	book := excelize.NewFile()
	defer book.Close()
	if err := book.SetSheetName("Sheet1", sheet); err != nil {
		return err
	}
	w, err := book.NewStreamWriter(sheet)
	if err != nil {
		return err
	}
	for i, row := range rows {
		cells := make([]any, len(row))
		for k, text := range row {
			switch x, failed := strconv.ParseFloat(text, 64); {
			case text == "":
			case failed == nil && number.MatchString(text):
				cells[k] = x
			default:
				cells[k] = text
			}
		}
		at, err := excelize.CoordinatesToCellName(1, i+1)
		if err != nil {
			return err
		}
		if err := w.SetRow(at, cells); err != nil {
			return err
		}
	}
	if err := w.Flush(); err != nil {
		return err
	}
	return book.SaveAs(path)
}

func writeParquet(path string, rows [][]string) error {
	columns := parquet.Group{}
	for _, name := range rows[0] {
		columns[name] = parquet.String()
	}
	schema := parquet.NewSchema("farms", columns)
	place := map[string]int{}
	for i, column := range schema.Columns() {
		place[column[0]] = i
	}
	file, err := os.Create(path)
	if err != nil {
		return err
	}
	defer file.Close()
	w := parquet.NewWriter(file, schema)
	for _, row := range rows[1:] {
		cells := make(parquet.Row, len(rows[0]))
		for k, name := range rows[0] {
			text := ""
			if k < len(row) {
				text = row[k]
			}
			cells[place[name]] = parquet.ValueOf(text).Level(0, 0, place[name])
		}
		if _, err := w.WriteRows([]parquet.Row{cells}); err != nil {
			return err
		}
	}
	return w.Close()
}
