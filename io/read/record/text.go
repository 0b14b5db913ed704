package record

import (
	"bytes"
	"encoding/binary"
	"regexp"
	"strings"
	"unicode/utf16"
	"unicode/utf8"
)

// line is one line of the text that is not blank, brought to plain letters.
type line struct {
	place Place
	text  string // right-trimmed; its left edge stays
}

// plainSigns turn signs that copying brings along into their plain form. A tab parts
// columns, as two blanks do.
var plainSigns = strings.NewReplacer(
	"\r", "", "\t", "   ", "\v", " ", "\u00a0", " ", "\u2007", " ", "\u202f", " ", "\u2002", " ", "\u2003", " ", "\u2009", " ",
	"\u2010", "-", "\u2011", "-", "\u2012", "-", "\u2013", "-", "\u2014", "-", "\u2015", "-", "\u2212", "-", "\u00ad", "",
	"\u200b", "", "\ufeff", "", "\uff1a", ":", "\u2019", "'", "\u2018", "'")

// decoded is the text in UTF-8: Windows writes two other forms too.
func decoded(text []byte) string {
	switch {
	case bytes.HasPrefix(text, []byte{0xff, 0xfe}), bytes.HasPrefix(text, []byte{0xfe, 0xff}):
		var order binary.ByteOrder = binary.LittleEndian
		if text[0] == 0xfe {
			order = binary.BigEndian
		}
		units := make([]uint16, 0, len(text)/2)
		for i := 2; i+1 < len(text); i += 2 {
			units = append(units, order.Uint16(text[i:]))
		}
		return string(utf16.Decode(units))
	case !utf8.Valid(text):
		runes := make([]rune, len(text))
		for i, b := range text {
			runes[i] = rune(b)
		}
		return string(runes)
	}
	return string(text)
}

// linesOf parts a text into its lines, without blank ones. fed reports whether form
// feeds part its pages.
func linesOf(text string) (lines []line, fed bool) {
	page := 1
	for i, raw := range strings.Split(strings.ReplaceAll(text, "\r\n", "\n"), "\n") {
		for j, part := range strings.Split(raw, "\f") {
			if j > 0 {
				if len(lines) > 0 { // a form feed before all else begins no second page
					page++
				}
				fed = true
			}
			part = strings.TrimRight(plainSigns.Replace(part), " ")
			if part != "" {
				lines = append(lines, line{Place{page, i + 1}, part})
			}
		}
	}
	return lines, fed
}

// cell is a part of a line that stands apart by two blanks or more.
type cell struct {
	text  string
	col   int // where it begins
	place Place
}

func (c cell) end() int { return c.col + len(c.text) }

var (
	cells = regexp.MustCompile(`[^ ]+(?: [^ ]+)*`)
	parts = regexp.MustCompile(`[^ ]+`)
)

// row is a line in its cells.
type row struct {
	line
	cells []cell
}

func cellsOf(l line) *row {
	r := &row{line: l}
	for _, at := range cells.FindAllStringIndex(l.text, -1) {
		r.cells = append(r.cells, cell{l.text[at[0]:at[1]], at[0], l.place})
	}
	return r
}

// words are the words of all cells of a row, each with its own place.
func (r *row) words() (all []cell) {
	for _, c := range r.cells {
		for _, at := range parts.FindAllStringIndex(c.text, -1) {
			all = append(all, cell{c.text[at[0]:at[1]], c.col + at[0], c.place})
		}
	}
	return all
}

// indent is where the text of a line begins.
func (l line) indent() int { return len(l.text) - len(strings.TrimLeft(l.text, " ")) }

// fold brings spellings of titles together: small letters, one blank between words.
func fold(text string) string { return strings.Join(strings.Fields(strings.ToLower(text)), " ") }
