package book

import (
	"archive/zip"
	"bytes"
	"compress/flate"
	"encoding/binary"
	"fmt"
	"hash/crc32"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"
)

// hostileFiles are workbooks and other files that must do no harm.
func hostileFiles(t testing.TB) map[string]string {
	t.Helper()
	folder := t.TempDir()
	put := func(name string, content []byte) string {
		path := filepath.Join(folder, name)
		if err := os.WriteFile(path, content, 0o644); err != nil {
			t.Fatal(err)
		}
		return path
	}
	wide := make([]any, 300)
	for i := range wide {
		wide[i] = i
	}
	sound, err := os.ReadFile(sheetOf(t, [][]any{{"ST_Cty"}}))
	if err != nil {
		t.Fatal(err)
	}
	lying := bytes.Clone(sound)
	// the size of the first part, as the archive's directory claims it: 2 GB
	if at := bytes.Index(lying, []byte("PK\x01\x02")); at > 0 {
		binary.LittleEndian.PutUint32(lying[at+24:], 2<<30)
	}
	return map[string]string{
		"truncated.xlsx":  put("truncated.xlsx", sound[:len(sound)/2]),
		"wrongsheet.xlsx": sheetOf(t, [][]any{{"Invoice", "Amount"}, {"fence posts", 40}}),
		"wide.xlsx":       sheetOf(t, [][]any{wide, wide}),
		"formulas.xlsx":   formulas(t),
		"bomb.xlsx":       put("bomb.xlsx", bomb(t)),
		"claims2gb.xlsx":  put("claims2gb.xlsx", lying),
		"binary.csv":      put("binary.csv", bytes.Repeat([]byte{0, 255, 7, 200}, 1<<20)),
		"packedbomb.gz":   put("packedbomb.gz", []byte("\x1f\x8b\x08\x00\x00\x00\x00\x00")),
	}
}

// formulas is a county table whose cells are formulas that were never worked out.
func formulas(t testing.TB) string {
	t.Helper()
	book := excelize.NewFile()
	defer book.Close()
	heading := []any{"ST_Cty", "State Name", "County Name", "Sub County", "Crop Name", "Unit", "ARC-CO Yield Designation"}
	for _, h := range []string{"2017 trend adjusted", "2018 trend adjusted", "2019 trend adjusted", "2020 trend adjusted", "2021 trend adjusted"} {
		heading = append(heading, h+" (county yield or 80% of T)")
	}
	heading = append(heading, nil)
	for _, h := range []string{"Bench Mark (olympic avg)", "Bench Mark Price (olympic avg)", "Benchmark Revenue", "Guarantee Revenue", "Maximum Payment Rate", "Actual Yield", "National Price", "Actual Revenue", "Formula Payment Rate", "ARC-CO Payment Rate"} {
		heading = append(heading, "2023 "+h)
	}
	line := []any{"99001", "Nowhere", "Alder", nil, "Corn", "Bushel", "All"}
	for i, cells := range [][]any{heading, line} {
		if err := book.SetSheetRow("Sheet1", fmt.Sprintf("A%d", i+1), &cells); err != nil {
			t.Fatal(err)
		}
	}
	for column := 8; column <= 23; column++ {
		name, _ := excelize.CoordinatesToCellName(column, 2)
		if err := book.SetCellFormula("Sheet1", name, "1E308*10"); err != nil {
			t.Fatal(err)
		}
	}
	path := filepath.Join(t.TempDir(), "formulas.xlsx")
	if err := book.SaveAs(path); err != nil {
		t.Fatal(err)
	}
	return path
}

// bomb is a small archive that unpacks to 1 GB.
func bomb(t testing.TB) []byte {
	t.Helper()
	var archive bytes.Buffer
	z := zip.NewWriter(&archive)
	packed, sum := packedZeros(t)
	for _, part := range []string{"xl/workbook.xml", "xl/worksheets/sheet1.xml"} {
		w, err := z.CreateRaw(&zip.FileHeader{Name: part, Method: zip.Deflate, CRC32: sum, CompressedSize64: uint64(len(packed)), UncompressedSize64: zeros})
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(packed); err != nil {
			t.Fatal(err)
		}
	}
	z.Close()
	return archive.Bytes()
}

const zeros = 512 << 20 // bytes of each part of the bomb

// packedZeros is a deflated run of zeros and its checksum: one stretch is packed, and
// said again and again.
func packedZeros(t testing.TB) (packed []byte, sum uint32) {
	t.Helper()
	stretch := make([]byte, 16<<20)
	var once, end bytes.Buffer
	w, err := flate.NewWriter(&once, flate.DefaultCompression)
	if err != nil {
		t.Fatal(err)
	}
	w.Write(stretch)
	w.Flush()
	w.Reset(&end)
	w.Close()
	for range zeros / len(stretch) {
		packed, sum = append(packed, once.Bytes()...), crc32.Update(sum, crc32.IEEETable, stretch)
	}
	packed = append(packed, end.Bytes()...)
	return packed, sum
}

// The bomb is what it says: a sound archive of two parts that unpack to zeros.
func TestBombIsSound(t *testing.T) {
	content := bomb(t)
	z, err := zip.NewReader(bytes.NewReader(content), int64(len(content)))
	if err != nil || len(z.File) != 2 {
		t.Fatal(err)
	}
	part, err := z.File[0].Open()
	if err != nil {
		t.Fatal(err)
	}
	defer part.Close()
	if n, err := io.Copy(io.Discard, part); n != zeros || err != nil { // checks the sum
		t.Errorf("a part of %d bytes, %v; want %d", n, err, zeros)
	}
	if len(content) > 2<<20 {
		t.Errorf("packed it is %d bytes", len(content))
	}
}

// Each is refused within 2 seconds of the processor and 100 MB, and leaves the book as
// it was.
func TestHostileFilesAreRefused(t *testing.T) {
	wholeFile(t)
	const within, most = 2 * time.Second, 100 // MB
	b := openNew(t)
	before := dump(t, b)
	for name, path := range hostileFiles(t) {
		child := childImport(t, path, b.Path())
		child.Stderr = nil
		status, err := child.Output()
		if took := child.ProcessState.UserTime() + child.ProcessState.SystemTime(); err == nil || took > within {
			t.Errorf("%s: %v after %v", name, err, took)
		}
		if peak := regexp.MustCompile(`VmHWM:\s+(\d+)`).FindSubmatch(status); peak != nil {
			if kilobytes, _ := strconv.Atoi(string(peak[1])); kilobytes/1024 > most {
				t.Errorf("%s takes %d MB", name, kilobytes/1024)
			}
		}
	}
	if after := dump(t, b); after != before {
		t.Errorf("the book changed to\n%s", after)
	}
}
