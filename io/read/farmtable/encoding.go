package farmtable

import (
	"bytes"
	"encoding/binary"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// utf16Marks begin files of text with two bytes a letter.
var utf16Marks = []struct {
	mark  []byte
	order binary.ByteOrder
}{{[]byte{0xff, 0xfe}, binary.LittleEndian}, {[]byte{0xfe, 0xff}, binary.BigEndian}}

// utf16Order returns the order of bytes that a byte order mark says, nil where the text
// does not begin with one.
func utf16Order(start []byte) binary.ByteOrder {
	for _, one := range utf16Marks {
		if bytes.HasPrefix(start, one.mark) {
			return one.order
		}
	}
	return nil
}

// utf16Text is text of two bytes a letter, read as UTF-8.
type utf16Text struct {
	from  io.Reader
	order binary.ByteOrder
	raw   []byte // read and not decoded
	text  []byte // decoded and not given out
	ended error
}

// utf16Chunk is how many bytes are decoded at a time.
const utf16Chunk = 8 << 10

// Read decodes as much as is asked for. Half a letter at the end becomes U+FFFD.
func (u *utf16Text) Read(into []byte) (int, error) {
	for len(u.text) == 0 && u.ended == nil {
		u.decode()
	}
	n := copy(into, u.text)
	u.text = u.text[n:]
	if n == 0 {
		return 0, u.ended
	}
	return n, nil
}

// decode decodes the next bytes. What may be half a letter waits for the rest.
func (u *utf16Text) decode() {
	chunk := make([]byte, utf16Chunk)
	n, err := u.from.Read(chunk)
	u.raw, u.ended = append(u.raw, chunk[:n]...), err
	whole := len(u.raw) / 2
	units := make([]uint16, whole)
	for i := range units {
		units[i] = u.order.Uint16(u.raw[2*i:])
	}
	if err == nil && whole > 0 && utf16.IsSurrogate(rune(units[whole-1])) {
		whole--
	}
	u.text = []byte(string(utf16.Decode(units[:whole])))
	u.raw = u.raw[2*whole:]
	if err != nil && len(u.raw)%2 == 1 {
		u.text = utf8.AppendRune(u.text, utf8.RuneError)
	}
}

// windows1252 are the letters of the bytes 0x80 to 0x9f in Windows code page 1252; 0: none.
// The other bytes are those of Unicode. Source: the Unicode Consortium's table CP1252.TXT.
var windows1252 = [32]rune{
	'€', 0, '‚', 'ƒ', '„', '…', '†', '‡', 'ˆ', '‰', 'Š', '‹', 'Œ', 0, 'Ž', 0,
	0, '‘', '’', '“', '”', '•', '–', '—', '˜', '™', 'š', '›', 'œ', 0, 'ž', 'Ÿ',
}

// fromWindows1252 decodes a text; ok is false where it has a byte that the code page does
// not have.
func fromWindows1252(text string) (decoded string, ok bool) {
	var b strings.Builder
	for i := range len(text) {
		letter := rune(text[i])
		if letter >= 0x80 && letter < 0xa0 {
			letter = windows1252[letter-0x80]
		}
		if letter == 0 {
			return text, false
		}
		b.WriteRune(letter)
	}
	return b.String(), true
}
