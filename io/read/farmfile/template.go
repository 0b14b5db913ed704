package farmfile

import (
	"errors"
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"

	"fencerow/io/read/farmtable"
)

// explanationsSheet explains the columns of the sheet farms.
const explanationsSheet = "explanations"

// WriteTemplate writes an .xlsx workbook to fill in: the sheet "farms" with all
// headings and two invented rows, and the sheet "explanations"; insured: with the columns of
// area insurance, which else are only mentioned.
func WriteTemplate(w io.Writer, insured bool) error {
	book := excelize.NewFile()
	defer book.Close()
	_, err := book.NewSheet(explanationsSheet)
	err = errors.Join(err, book.SetSheetName(book.GetSheetName(0), farmtable.Sheet), writeFarms(book, insured), writeExplanations(book, insured))
	if err != nil {
		return fmt.Errorf("template: %w", err)
	}
	return book.Write(w)
}

func writeFarms(book *excelize.File, insured bool) error {
	text, err := book.NewStyle(&excelize.Style{NumFmt: 49}) // 49: text
	rows := [][]any{{}}
	for c, of := range farmtable.Explanations(insured) {
		rows[0] = append(rows[0], of.Name)
		if of.Text {
			name, noName := excelize.ColumnNumberToName(c + 1)
			err = errors.Join(err, noName, book.SetColStyle(farmtable.Sheet, name, text))
		}
	}
	return errors.Join(err, fillSheet(book, farmtable.Sheet, 16, append(rows, farmtable.TemplateRows(insured)...)))
}

func writeExplanations(book *excelize.File, insured bool) error {
	rows := [][]any{{"column", "unit", "meaning", "example", "required"}}
	for _, of := range farmtable.Explanations(insured) {
		required := "no"
		if of.Required {
			required = "yes"
		}
		rows = append(rows, []any{of.Name, of.Unit, of.Meaning, of.Example, required})
	}
	if !insured {
		rows = append(rows, []any{"", "", fmt.Sprintf("%d more columns are for area insurance (SCO, ECO, STAX). To have them here too, add --insurance to the command that wrote this.", len(farmtable.InsuranceColumns()))})
	}
	return errors.Join(fillSheet(book, explanationsSheet, 26, rows), book.SetColWidth(explanationsSheet, "C", "C", 76))
}

// fillSheet writes rows from A1, the first in bold and kept in sight.
func fillSheet(book *excelize.File, sheet string, width float64, rows [][]any) error {
	bold, err := book.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	for i, row := range rows {
		err = errors.Join(err, book.SetSheetRow(sheet, fmt.Sprintf("A%d", i+1), &row))
	}
	last, noName := excelize.ColumnNumberToName(len(rows[0]))
	return errors.Join(err, noName, book.SetCellStyle(sheet, "A1", last+"1", bold), book.SetColWidth(sheet, "A", last, width),
		book.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"}))
}
