package workbook

import (
	"bytes"

	"github.com/xuri/excelize/v2"
)

// Book is an open workbook. Truths says that some sheet holds a cell of TRUE or FALSE
// (see TruthFinder): a workbook stores these as 1 and 0, which are no numbers.
type Book struct {
	*excelize.File
	Truths bool
}

// Rows begins a sheet.
func (b *Book) Rows(sheet string) (*Rows, error) {
	stored, err := b.File.Rows(sheet)
	if err != nil || !b.Truths {
		return &Rows{Rows: stored}, err
	}
	shown, err := b.File.Rows(sheet)
	if err != nil {
		stored.Close()
	}
	return &Rows{stored, shown}, err
}

// Rows are the rows of a sheet, one after the other.
type Rows struct {
	*excelize.Rows
	shown *excelize.Rows // the same rows as people see them; nil where no cell is TRUE or FALSE
}

// Next goes to the next row; false after the last.
func (r *Rows) Next() bool {
	if r.shown != nil {
		r.shown.Next()
	}
	return r.Rows.Next()
}

// Columns returns the cells of the row from column A on.
func (r *Rows) Columns() ([]string, error) {
	cells, err := r.Rows.Columns(excelize.Options{RawCellValue: true})
	if err != nil || r.shown == nil {
		return cells, err
	}
	shown, err := r.shown.Columns(excelize.Options{})
	for i := range min(len(cells), len(shown)) {
		if cells[i] == "1" && shown[i] == "TRUE" || cells[i] == "0" && shown[i] == "FALSE" {
			cells[i] = shown[i]
		}
	}
	return cells, err
}

// Close ends the reading.
func (r *Rows) Close() error {
	if r.shown != nil {
		defer r.shown.Close()
	}
	return r.Rows.Close()
}

// TruthFinder is written the parts of a workbook, unpacked, and finds whether any sheet
// has a cell of TRUE or FALSE. Source of the mark: ISO/IEC 29500-1, 18.18.11, ST_CellType b.
type TruthFinder struct {
	Found bool
	tail  []byte // the end of what was written, in which a mark may have begun
}

var truthMarks = [][]byte{[]byte(` t="b"`), []byte(` t='b'`)}

// Write looks for the mark of such a cell.
func (f *TruthFinder) Write(part []byte) (int, error) {
	for _, mark := range truthMarks {
		joint := append(f.tail[:len(f.tail):len(f.tail)], part[:min(len(part), len(mark))]...)
		f.Found = f.Found || bytes.Contains(joint, mark) || bytes.Contains(part, mark)
	}
	keep := len(truthMarks[0]) - 1
	f.tail = append(f.tail, part[max(0, len(part)-keep):]...)
	f.tail = append([]byte(nil), f.tail[max(0, len(f.tail)-keep):]...)
	return len(part), nil
}
