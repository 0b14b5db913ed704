package workbook

import (
	"archive/zip"
	"bufio"
	"errors"
	"io"
	"regexp"
	"strings"
	"sync"

	"golang.org/x/net/html/charset"
)

// CheckPart unpacks a part of a workbook into a writer, to its end, where its checksum is
// compared. The error says what is damaged, or that its encoding cannot be read.
func CheckPart(part *zip.File, into io.Writer) error {
	unpacked, err := part.Open()
	if err != nil {
		return err
	}
	defer unpacked.Close()
	text := bufio.NewReader(unpacked)
	const declaration = 128 // bytes; that of XML stands first
	start, _ := text.Peek(declaration)
	if err := checkEncoding(string(start)); err != nil {
		return err
	}
	_, err = io.Copy(into, text)
	return err
}

// declares finds the encoding that an XML document declares.
var declares = sync.OnceValue(func() *regexp.Regexp {
	return regexp.MustCompile(`^\x{FEFF}?<\?xml[^>]*\sencoding\s*=\s*["']([^"']*)["']`)
})

// checkEncoding refuses a part whose encoding cannot be read, of which excelize would
// leave the cells empty and say nothing.
func checkEncoding(start string) error {
	if strings.HasPrefix(start, "\xFF\xFE") || strings.HasPrefix(start, "\xFE\xFF") {
		return errors.New("it is UTF-16, not UTF-8")
	}
	found := declares().FindStringSubmatch(start)
	if found == nil {
		return nil
	}
	_, err := charset.NewReaderLabel(found[1], strings.NewReader(""))
	return err
}
