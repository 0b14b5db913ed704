package terminal

import (
	"fmt"
	"io"
	"io/fs"
	"os"
	"strings"
	"unicode"
	"unicode/utf8"
)

// Plain writes to a terminal or a file what people can see. Characters that would steer a
// terminal or turn the order of letters round come out as their numbers, "\u202e": names
// come from files that others wrote.
type Plain struct {
	to   io.Writer
	rest []byte // of a letter whose other bytes come with the next Write
}

// NewPlain returns a Plain before a stream.
func NewPlain(to io.Writer) *Plain { return &Plain{to: to} }

// Stat is that of the stream, where it is a file.
func (p *Plain) Stat() (fs.FileInfo, error) {
	if file, is := p.to.(*os.File); is {
		return file.Stat()
	}
	return nil, fs.ErrInvalid
}

// Write writes a text; letters may be cut between two calls. The error is the stream's.
func (p *Plain) Write(text []byte) (int, error) {
	left := append(p.rest, text...)
	seen := make([]byte, 0, len(left))
	for len(left) > 0 && utf8.FullRune(left) {
		letter, size := utf8.DecodeRune(left)
		switch {
		case letter == utf8.RuneError && size == 1:
			seen = fmt.Appendf(seen, `\x%02x`, left[0])
		case steers(letter):
			seen = fmt.Appendf(seen, `\u%04x`, letter)
		default:
			seen = append(seen, left[:size]...)
		}
		left = left[size:]
	}
	p.rest = append([]byte(nil), left...)
	if _, err := p.to.Write(seen); err != nil {
		return 0, err
	}
	return len(text), nil
}

// OneLine returns a text with line breaks and tabs as \n, \r and \t: a name or a cell that has
// them could else look like a line of the program. What else steers a terminal Plain shows.
func OneLine(text string) string {
	return strings.NewReplacer("\n", `\n`, "\r", `\r`, "\t", `\t`).Replace(text)
}

// steers reports whether a letter is none: it moves the cursor, changes colors or the
// order of letters, or is not seen.
func steers(letter rune) bool {
	return unicode.Is(unicode.Cf, letter) || unicode.IsControl(letter) && letter != '\n' && letter != '\t' && letter != '\r'
}
