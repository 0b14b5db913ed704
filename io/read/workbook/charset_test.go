package workbook

import (
	"archive/zip"
	"bytes"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/xuri/excelize/v2"
	"golang.org/x/net/html/charset"
)

// The bytes and characters are those of Unicode's table of windows-1252; ISO 8859-1 has
// the same from 0xA0 on. A small reader sees parts of characters, in order.
func TestDeclaredEncodings(t *testing.T) {
	const bytesOf, want = "a \x80 \x85 \x8e \x91\x92 \x9f \xa3 \xe9\xff", "a € … Ž ‘’ Ÿ £ éÿ"
	for _, label := range []string{"windows-1252", "CP1252", "iso-8859-1", " ISO-8859-1 "} {
		read, err := charset.NewReaderLabel(label, strings.NewReader(bytesOf))
		if err != nil {
			t.Fatal(label, err)
		}
		got, err := io.ReadAll(iotest.OneByteReader(read))
		if err != nil || string(got) != want {
			t.Errorf("%s: %q, %v, want %q", label, got, err, want)
		}
	}
	if read, err := charset.NewReaderLabel("UTF-8", strings.NewReader(want)); err != nil {
		t.Error(err)
	} else if got, err := io.ReadAll(read); err != nil || string(got) != want {
		t.Errorf("UTF-8: %q, %v", got, err)
	}
	for _, label := range []string{"Shift_JIS", "GBK", ""} {
		if _, err := charset.NewReaderLabel(label, strings.NewReader("")); err == nil {
			t.Errorf("%q is read", label)
		}
	}
	broken, _ := charset.NewReaderLabel("ascii", iotest.ErrReader(io.ErrUnexpectedEOF))
	if _, err := io.ReadAll(broken); err != io.ErrUnexpectedEOF {
		t.Errorf("a file that breaks off: %v", err)
	}
}

// A part of a workbook is read in the encoding that it declares, or refused.
func TestWorkbookInAnotherEncoding(t *testing.T) {
	book := excelize.NewFile()
	if err := book.SetCellValue("Sheet1", "A1", "price in EUR"); err != nil {
		t.Fatal(err)
	}
	var plain bytes.Buffer
	if err := book.Write(&plain); err != nil {
		t.Fatal(err)
	}
	for label, want := range map[string]string{"windows-1252": "price in €", "GBK": ""} {
		path := filepath.Join(t.TempDir(), "book.xlsx")
		if err := os.WriteFile(path, redeclared(t, plain.Bytes(), label), 0o600); err != nil {
			t.Fatal(err)
		}
		found, _, err := Lines(path, "")
		if want == "" {
			if err == nil || !strings.Contains(err.Error(), "GBK") {
				t.Errorf("%s: %v", label, err)
			}
			continue
		}
		if err != nil {
			t.Fatal(label, err)
		}
		line, err := found.Next()
		if err != nil || len(line.Cells) != 1 || line.Cells[0] != want {
			t.Errorf("%s: %v, %v, want %q", label, line, err, want)
		}
		found.Close()
	}
	for start, sound := range map[string]bool{
		`<?xml version="1.0" encoding="UTF-8" standalone="yes"?>`: true, `<?xml version='1.0' encoding='utf-8'?>`: true, "\uFEFF<?xml version=\"1.0\"?>": true,
		"": true, "\x89PNG encoding=\"x\"": true, `<a encoding="GBK"/>`: true,
		"\xFF\xFE<\x00?\x00": false, "\xFE\xFF\x00<\x00?": false, "\uFEFF<?xml version=\"1.0\" encoding=\"Shift_JIS\"?>": false, `<?xml version="1.0" encoding = 'UTF-16'?>`: false,
	} {
		if err := checkEncoding(start); (err == nil) != sound {
			t.Errorf("%q: %v", start, err)
		}
	}
}

// redeclared returns a workbook whose texts declare another encoding and have a euro sign
// in windows-1252.
func redeclared(t *testing.T, book []byte, label string) []byte {
	t.Helper()
	from, err := zip.NewReader(bytes.NewReader(book), int64(len(book)))
	if err != nil {
		t.Fatal(err)
	}
	var to bytes.Buffer
	z := zip.NewWriter(&to)
	for _, part := range from.File {
		r, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(r)
		if err != nil {
			t.Fatal(err)
		}
		if part.Name == "xl/sharedStrings.xml" {
			text = bytes.Replace(text, []byte("UTF-8"), []byte(label), 1)
			text = bytes.Replace(text, []byte("EUR"), []byte("\x80"), 1)
		}
		w, err := z.Create(part.Name)
		if err != nil {
			t.Fatal(err)
		}
		if _, err := w.Write(text); err != nil {
			t.Fatal(err)
		}
	}
	if err := z.Close(); err != nil {
		t.Fatal(err)
	}
	return to.Bytes()
}
