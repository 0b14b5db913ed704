package workbook

import (
	"archive/zip"
	"fmt"
	"io"
	"os"
	"strings"

	"github.com/xuri/excelize/v2"

	"fencerow/io/read/lines"
)

// Bounds on a workbook nobody has vouched for. A sheet holds at most 1,048,576
// rows; with more farms than fit here a .csv or .parquet file is the better form.
const (
	mostPacked   = 64 << 20  // bytes of the file
	mostUnpacked = 512 << 20 // bytes of all parts
	mostInMemory = 16 << 20  // bytes of one part; excelize keeps larger ones in a temporary file
)

const hintSaveAs = "open it in a spreadsheet program and save it as .xlsx or .csv"

// workbookLines is one sheet of an .xlsx workbook, row by row.
type workbookLines struct {
	path, sheet string
	book        *Book
	rows        *Rows
	number      int
}

// Lines opens a workbook on the disk and reads the sheet of a name, or the first; sheets
// that are not read are noted. What cannot be read is farm.Mistakes.
func Lines(path, wanted string) (lines.Lines, []string, error) {
	truths, err := checkWorkbook(path)
	if err != nil {
		return nil, nil, err
	}
	file, err := excelize.OpenFile(path, excelize.Options{
		RawCellValue:      true, // numbers as stored, not as shown
		UnzipSizeLimit:    mostUnpacked,
		UnzipXMLSizeLimit: mostInMemory,
	})
	if err != nil {
		if file != nil {
			file.Close()
		}
		return nil, nil, lines.Refuse(path, "", "the workbook cannot be read: "+err.Error(), hintSaveAs)
	}
	book := &Book{File: file, Truths: truths}
	sheets := book.GetSheetList()
	if len(sheets) == 0 {
		book.Close()
		return nil, nil, lines.Refuse(path, "", "the workbook has no sheet", hintSaveAs)
	}
	chosen, named := sheets[0], false
	for _, sheet := range sheets {
		if strings.EqualFold(strings.TrimSpace(sheet), wanted) {
			chosen, named = sheet, true
		}
	}
	rows, err := book.Rows(chosen)
	if err != nil {
		book.Close()
		return nil, nil, lines.Refuse(path, chosen, fmt.Sprintf("sheet %q cannot be read: %v", chosen, err), hintSaveAs)
	}
	var notes []string
	if len(sheets) > 1 && !named {
		notes = []string{fmt.Sprintf("only sheet %q is read; name the sheet to read %q", chosen, wanted)}
	}
	return &workbookLines{path: path, sheet: chosen, book: book, rows: rows}, notes, nil
}

// Next returns the next line, as lines.Lines has it.
func (l *workbookLines) Next() (lines.Line, error) {
	if !l.rows.Next() {
		if err := l.rows.Error(); err != nil {
			return lines.Line{}, l.damaged(err)
		}
		return lines.Line{}, io.EOF
	}
	l.number++
	cells, err := l.rows.Columns()
	if err != nil {
		return lines.Line{}, l.damaged(err)
	}
	return lines.Line{Number: l.number, Cells: cells}, nil
}

func (l *workbookLines) damaged(err error) error {
	return lines.Refuse(l.path, l.sheet, fmt.Sprintf("sheet %q cannot be read after line %d: %v", l.sheet, l.number, err), hintSaveAs)
}

// Close closes the file.
func (l *workbookLines) Close() error {
	err := l.rows.Close()
	if closed := l.book.Close(); err == nil {
		err = closed
	}
	return err
}

// oldOffice begins every file of the format before .xlsx, and every .xlsx with a
// password.
const oldOffice = "\xD0\xCF\x11\xE0"

// checkWorkbook refuses what is no sound .xlsx of bounded size before excelize
// sees it. Every part is unpacked once to its checksum, because excelize keeps
// what it got of a damaged part and says nothing. truths reports whether a cell is TRUE
// or FALSE.
func checkWorkbook(path string) (truths bool, err error) {
	file, err := os.Open(path)
	if err != nil {
		return false, lines.Unreadable(path, err)
	}
	defer file.Close()
	info, err := file.Stat()
	if err != nil {
		return false, lines.Unreadable(path, err)
	}
	if info.IsDir() {
		return false, lines.Refuse(path, "", "is a folder", "name a file")
	}
	if info.Size() > mostPacked {
		return false, lines.Refuse(path, "", fmt.Sprintf("the workbook is larger than %d MB", mostPacked>>20), "save a table of this size as .csv or .parquet")
	}
	start := make([]byte, len(oldOffice))
	if n, _ := file.ReadAt(start, 0); string(start[:n]) == oldOffice {
		return false, lines.Refuse(path, "", "this is an old .xls workbook or one with a password", hintSaveAs+", without password")
	}
	parts, err := zip.NewReader(file, info.Size())
	if err != nil {
		return false, lines.Refuse(path, "", "this is not an .xlsx workbook ("+err.Error()+")", hintSaveAs)
	}
	return checkParts(path, parts.File)
}

func checkParts(path string, parts []*zip.File) (truths bool, err error) {
	unpacked, isWorkbook := uint64(0), false
	finder := TruthFinder{}
	for _, part := range parts {
		if part.UncompressedSize64 > mostUnpacked-unpacked {
			return false, lines.Refuse(path, part.Name, fmt.Sprintf("the workbook unpacks to more than %d MB", mostUnpacked>>20), "save a table of this size as .csv or .parquet")
		}
		unpacked += part.UncompressedSize64
		isWorkbook = isWorkbook || strings.HasPrefix(strings.ToLower(part.Name), "xl/workbook")
		if err := CheckPart(part, &finder); err != nil {
			return false, lines.Refuse(path, part.Name, fmt.Sprintf("part %q of the workbook is damaged: %v", part.Name, err), hintSaveAs)
		}
	}
	if !isWorkbook {
		return false, lines.Refuse(path, "", "the archive holds no workbook", hintSaveAs)
	}
	return finder.Found, nil
}
