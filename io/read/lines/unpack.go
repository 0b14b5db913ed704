package lines

import (
	"compress/gzip"
	"fmt"
	"io"
)

// A text packed with gzip is at most mostTimes as large as its file, and smallText more: a
// judgement. Agencies' tables pack to a tenth or a thirtieth, a file of one line that
// stands in it again and again to a thousandth.
const (
	mostTimes = 100
	smallText = 32 << 20 // bytes
)

// Unpack returns the text of a file packed with gzip. Reading it ends with an error where it
// is more than a text that packs so closely can be: a small file could else fill hours.
func Unpack(packed io.Reader) (io.Reader, error) {
	u := &unpacking{packed: counted{from: packed}}
	var err error
	u.text, err = gzip.NewReader(&u.packed)
	if err != nil {
		return nil, err
	}
	return u, nil
}

// unpacking is a packed text that is being read.
type unpacking struct {
	packed counted
	text   io.Reader
	given  int64 // bytes of text so far
}

// Read reads on in the text.
func (u *unpacking) Read(into []byte) (int, error) {
	n, err := u.text.Read(into)
	if u.given += int64(n); u.given > smallText+mostTimes*u.packed.bytes {
		return n, fmt.Errorf("it unpacks to more than %d times its size", mostTimes)
	}
	return n, err
}

// counted counts what is read.
type counted struct {
	from  io.Reader
	bytes int64
}

// Read reads on.
func (c *counted) Read(into []byte) (int, error) {
	n, err := c.from.Read(into)
	c.bytes += int64(n)
	return n, err
}
