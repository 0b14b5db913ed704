package spelling

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// mostName is how many letters a name or number of a farm, a tract, a client or a person may
// have: a judgement, no record comes near.
const mostName = 100

// NameFault says what is wrong with a name, as the end of a sentence, and what to do; both
// are "" where nothing is. A name is printed, looked up and written to tables, so it is
// short and on one line, has no letter that is not seen or that looks like another one, and
// begins no formula of a spreadsheet.
func NameFault(name string) (reason, hint string) {
	if name != "" && strings.IndexByte("=+-@", name[0]) >= 0 && BeginsFormula(name) {
		return fmt.Sprintf("begins with %q, which a spreadsheet takes for a formula", name[:1]), "leave that sign out"
	}
	if isPlain(name) {
		if len(name) > mostName {
			return longName()
		}
		return "", ""
	}
	switch {
	case utf8.RuneCountInString(name) > mostName:
		return longName()
	case strings.ContainsFunc(name, unicode.IsControl):
		return "has a line break or control character", "write it on one line"
	case Hidden(name) != "":
		return "has a character that is not seen, " + Hidden(name), "type it again, without copying"
	}
	for _, letter := range name {
		if looksLikeAnother(letter) {
			return fmt.Sprintf("has %q (%U), which looks like another letter or digit", letter, letter), "type it again with plain letters and digits"
		}
	}
	return "", ""
}

func longName() (reason, hint string) {
	return fmt.Sprintf("has more than %d letters", mostName), "shorten it"
}

// isPlain reports whether a text has printed ASCII characters alone.
func isPlain(text string) bool {
	for i := range len(text) {
		if text[i] < ' ' || text[i] > '~' {
			return false
		}
	}
	return true
}

// looksLikeAnother reports whether a letter can be taken for a Latin letter, a digit or a
// blank that it is not: full-width and other digits, Cyrillic and Greek letters, letters of
// formulas, wide and narrow blanks.
func looksLikeAnother(letter rune) bool {
	const (
		fullWidth, fullWidthEnd = 0xFF01, 0xFF5E
		formula, formulaEnd     = 0x1D400, 0x1D7FF
	)
	switch {
	case letter <= '~':
		return false
	case fullWidth <= letter && letter <= fullWidthEnd, formula <= letter && letter <= formulaEnd:
		return true
	}
	return unicode.IsDigit(letter) || unicode.IsSpace(letter) || unicode.In(letter, unicode.Cyrillic, unicode.Greek)
}

// BeginsFormula reports whether a spreadsheet that opens a table of text takes a cell for a
// formula: it begins with = + - @, a tab or a carriage return, and is no number.
func BeginsFormula(text string) bool {
	if text == "" || strings.IndexByte("=+-@\t\r", text[0]) < 0 {
		return false
	}
	_, err := strconv.ParseFloat(text, 64)
	return err != nil && len(text) > 1
}
