package table

import (
	"archive/zip"
	"bytes"
	"errors"
	"fmt"
	"io"
	"os"
	"slices"
	"strings"

	"github.com/xuri/excelize/v2"

	"fencerow/io/read/workbook"
	"fencerow/program/farm"
)

// Bounds on a file nobody has vouched for. A full year is about 2.5 MB packed
// and 20 MB unpacked; a table has some 20,000 lines and 23 columns.
const (
	mostPacked   = 32 << 20  // bytes of the file
	mostUnpacked = 128 << 20 // bytes of all parts
	mostInMemory = 32 << 20  // bytes of one part; excelize keeps larger ones in a temporary file
	mostLines    = 100_000   // filled lines of a sheet
	mostColumns  = 1_000
)

const (
	hintUntouched = "use the workbook as downloaded from FSA's ARC/PLC program data page, with its heading line untouched"
	hintSaveAs    = "open it in a spreadsheet program and save it as .xlsx"
	hintDownload  = "download it again from FSA's ARC/PLC program data page"
)

// refuse returns the one mistake for which a file is not read at all.
func refuse(file, value, reason, hint string) farm.Mistakes {
	return farm.Mistakes{{File: file, Value: value, Reason: reason, Hint: hint}}
}

// openWorkbook returns the workbook in a file, or farm.Mistakes. The caller closes it.
func openWorkbook(file string) (*workbook.Book, error) {
	content, err := readBounded(file)
	if err != nil {
		return nil, err
	}
	truths, err := checkPackage(file, content)
	if err != nil {
		return nil, err
	}
	book, err := excelize.OpenReader(bytes.NewReader(content), excelize.Options{
		RawCellValue:      true, // numbers as stored, not as formatted
		UnzipSizeLimit:    mostUnpacked,
		UnzipXMLSizeLimit: mostInMemory,
	})
	if err != nil {
		if book != nil {
			book.Close()
		}
		return nil, refuse(file, "", "the workbook cannot be read: "+err.Error(), hintDownload)
	}
	return &workbook.Book{File: book, Truths: truths}, nil
}

// readBounded returns the bytes of a file that is not larger than mostPacked.
func readBounded(file string) ([]byte, error) {
	f, err := os.Open(file)
	if err != nil {
		return nil, refuse(file, "", reasonOf(err), "check the name and folder of the file")
	}
	defer f.Close()
	content, err := io.ReadAll(io.LimitReader(f, mostPacked+1))
	if err != nil {
		return nil, refuse(file, "", reasonOf(err), "check the name and folder of the file")
	}
	if len(content) > mostPacked {
		return nil, refuse(file, "", fmt.Sprintf("the file is larger than %d MB, a county table is about 3 MB", mostPacked>>20), hintDownload)
	}
	return content, nil
}

// reasonOf returns why a file could not be read, without repeating its name.
func reasonOf(err error) string {
	var path *os.PathError
	if errors.As(err, &path) {
		return "the file cannot be read: " + path.Err.Error()
	}
	return "the file cannot be read: " + err.Error()
}

// oldOffice begins every file of the format before .xlsx. An .xlsx with a
// password is wrapped in the same format, under the name encryptedPart.
var (
	oldOffice     = []byte{0xD0, 0xCF, 0x11, 0xE0}
	encryptedPart = []byte("E\x00n\x00c\x00r\x00y\x00p\x00t\x00e\x00d\x00P\x00a\x00c\x00k\x00a\x00g\x00e\x00")
)

// checkPackage refuses what is no sound .xlsx before excelize sees it. It
// unpacks every part once, because excelize keeps what it got of a damaged
// part and says nothing, so that counties would be missing in silence.
// truths reports whether a cell is TRUE or FALSE.
func checkPackage(file string, content []byte) (truths bool, err error) {
	if bytes.HasPrefix(content, oldOffice) {
		if bytes.Contains(content, encryptedPart) {
			return false, refuse(file, "", "the workbook is protected by a password", "open it, take the password away and save it as .xlsx")
		}
		return false, refuse(file, "", "this is an old .xls workbook, which is not read here", hintSaveAs)
	}
	parts, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil {
		return false, refuse(file, "", "this is not an .xlsx workbook ("+err.Error()+")", hintSaveAs+"; if it was one, "+hintDownload)
	}
	if !slices.ContainsFunc(parts.File, isWorkbook) {
		return false, refuse(file, "", "the archive holds no workbook", hintSaveAs)
	}
	unpacked, finder := uint64(0), workbook.TruthFinder{}
	for _, part := range parts.File {
		if part.UncompressedSize64 > mostUnpacked-unpacked {
			return false, refuse(file, part.Name, fmt.Sprintf("the workbook unpacks to more than %d MB", mostUnpacked>>20), hintDownload)
		}
		unpacked += part.UncompressedSize64
		if err := workbook.CheckPart(part, &finder); err != nil {
			return false, refuse(file, part.Name, fmt.Sprintf("part %q of the workbook is damaged: %v", part.Name, err), hintDownload)
		}
	}
	return finder.Found, nil
}

// isWorkbook knows the part that lists the sheets, xl/workbook.xml; some
// programs put a number behind its name.
func isWorkbook(part *zip.File) bool {
	return strings.HasPrefix(strings.ToLower(part.Name), "xl/workbook")
}
