package charset

import (
	"bufio"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// NewReaderLabel returns a reader of input as UTF-8. The label is the encoding that an XML
// document declares. encoding/xml reads UTF-8 itself and asks for any other: plain ASCII
// and the two one-byte encodings of Western Europe are read, which some programs declare
// against the standard; another is an error that says what may stand there.
//
// Source: ECMA-376 Part 2, which allows UTF-8 and UTF-16 alone.
func NewReaderLabel(label string, input io.Reader) (io.Reader, error) {
	switch strings.ToLower(strings.TrimSpace(label)) {
	case "utf-8", "utf8":
		return input, nil
	case "us-ascii", "ascii", "iso-8859-1", "latin1", "windows-1252", "cp1252":
		return &western{from: bufio.NewReader(input)}, nil
	}
	return nil, fmt.Errorf("the encoding %q is not UTF-8", label)
}

// western reads windows-1252, of which ASCII and the printed characters of ISO 8859-1 are
// parts, as UTF-8.
type western struct {
	from *bufio.Reader
	left []byte // of a character that did not fit
}

// from80 are the characters of the bytes 0x80 to 0x9F. Those of five bytes without a
// character stand for themselves.
// Source: Unicode Consortium, MAPPINGS/VENDORS/MICSFT/WINDOWS/CP1252.TXT.
var from80 = []rune("€\u0081‚ƒ„…†‡ˆ‰Š‹Œ\u008dŽ\u008f\u0090‘’“”•–—˜™š›œ\u009džŸ")

// Read fills dst with whole characters as far as they fit.
func (w *western) Read(dst []byte) (n int, err error) {
	for n < len(dst) {
		if len(w.left) == 0 {
			b, err := w.from.ReadByte()
			if err != nil {
				if n > 0 {
					err = nil
				}
				return n, err
			}
			r := rune(b)
			if b >= 0x80 && b <= 0x9F {
				r = from80[b-0x80]
			}
			w.left = utf8.AppendRune(w.left[:0], r)
		}
		took := copy(dst[n:], w.left)
		w.left = w.left[took:]
		n += took
	}
	return n, nil
}
