package farmtable

import (
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"
)

// explanationsSheet explains the columns of the sheet farms.
const explanationsSheet = "explanations"

// templateRows are invented: state code 99 is no state.
var templateRows = [][columnCount]any{
	{clientColumn: "client 12", operationColumn: "home farms", farmColumn: "0417", stateColumn: "99", countyColumn: "99001", commodityColumn: "corn", cropYearColumn: 2026, baseAcresColumn: 120.00, paymentYieldColumn: 150, electionColumn: "PLC", contractColumn: "open", leaseColumn: "cash", producerColumn: "operator", shareColumn: 1, totalAcresColumn: 250, croplandColumn: 231.5},
	{clientColumn: "client 12", operationColumn: "home farms", farmColumn: "0417", stateColumn: "99", countyColumn: "99001", commodityColumn: "soybeans", cropYearColumn: 2026, baseAcresColumn: 80.00, paymentYieldColumn: 38, electionColumn: "ARC-CO", contractColumn: "open", leaseColumn: "cash", producerColumn: "operator", shareColumn: 1, totalAcresColumn: 250, croplandColumn: 231.5},
}

// textColumns hold codes and numbers that a spreadsheet program must not take
// for numbers: they would lose their leading zeros.
var textColumns = []column{farmColumn, stateColumn, countyColumn, tractColumn, physicalCountyColumn, mergeWithColumn}

// WriteTemplate writes an .xlsx workbook to fill in: the sheet "farms" with all
// headings and two invented rows, and the sheet "explanations".
func WriteTemplate(w io.Writer) error {
	book := excelize.NewFile()
	defer book.Close()
	if err := book.SetSheetName(book.GetSheetName(0), farmsSheet); err != nil {
		return fmt.Errorf("template: %w", err)
	}
	if _, err := book.NewSheet(explanationsSheet); err != nil {
		return fmt.Errorf("template: %w", err)
	}
	for _, write := range []func(*excelize.File) error{writeFarms, writeExplanations} {
		if err := write(book); err != nil {
			return fmt.Errorf("template: %w", err)
		}
	}
	return book.Write(w)
}

func writeFarms(book *excelize.File) error {
	text, err := book.NewStyle(&excelize.Style{NumFmt: 49}) // 49: text
	if err != nil {
		return err
	}
	for _, c := range textColumns {
		name, err := excelize.ColumnNumberToName(int(c) + 1)
		if err != nil {
			return err
		}
		if err := book.SetColStyle(farmsSheet, name, text); err != nil {
			return err
		}
	}
	rows := [][]any{{}}
	for _, of := range columns {
		rows[0] = append(rows[0], of.name)
	}
	for _, row := range templateRows {
		rows = append(rows, row[:])
	}
	return fillSheet(book, farmsSheet, 16, rows)
}

func writeExplanations(book *excelize.File) error {
	rows := [][]any{{"column", "unit", "meaning", "example", "required"}}
	for _, of := range columns {
		required := "no"
		if of.required {
			required = "yes"
		}
		rows = append(rows, []any{of.name, of.unit, of.meaning, of.example, required})
	}
	if err := fillSheet(book, explanationsSheet, 26, rows); err != nil {
		return err
	}
	return book.SetColWidth(explanationsSheet, "C", "C", 76)
}

// fillSheet writes rows from A1, the first in bold and kept in sight.
func fillSheet(book *excelize.File, sheet string, width float64, rows [][]any) error {
	bold, err := book.NewStyle(&excelize.Style{Font: &excelize.Font{Bold: true}})
	if err != nil {
		return err
	}
	for i, row := range rows {
		if err := book.SetSheetRow(sheet, fmt.Sprintf("A%d", i+1), &row); err != nil {
			return err
		}
	}
	last, err := excelize.ColumnNumberToName(len(rows[0]))
	if err != nil {
		return err
	}
	if err := book.SetCellStyle(sheet, "A1", last+"1", bold); err != nil {
		return err
	}
	if err := book.SetColWidth(sheet, "A", last, width); err != nil {
		return err
	}
	return book.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}
