package document

import (
	"fmt"
	"strings"
	"time"
	"unicode"

	"fencerow/io/read/spelling"
	"fencerow/program/farm"
)

// Number returns a number: digits with a point, perhaps a dollar sign or thousands
// commas. ok is false where a mistake was noted.
func (r *Reader) Number(n Node, what string) (number float64, ok bool) {
	return r.numberBy(n, what, spelling.Number)
}

// Share returns a part of one, which may be written as a percentage; whether it lies
// between 0 and 1 is not looked at. ok is false where a mistake was noted.
func (r *Reader) Share(n Node, what string) (share float64, ok bool) {
	return r.numberBy(n, what, spelling.Share)
}

func (r *Reader) numberBy(n Node, what string, read func(string, spelling.Habits) (float64, *farm.Fault)) (float64, bool) {
	if n.Kind != Scalar {
		r.Refuse(n, fmt.Sprintf("%s is %s, not a number", what, n.describe()), "write one number")
		return 0, false
	}
	number, fault := read(n.Text, spelling.Habits{})
	if n.Quoted && spelling.IsPlain(n.Text) {
		fault = spelling.NotNumber // in quotes a plain number is a name or a code
	}
	if fault == nil {
		return number, true
	}
	hint := fault.Hint
	if fault == spelling.NotNumber {
		hint = numberHint(n)
	}
	r.Refuse(n, fmt.Sprintf("%s is %s, %s", what, n.describe(), fault.Reason), hint)
	return 0, false
}

func numberHint(n Node) string {
	plain := strings.NewReplacer(",", "", "_", "", " ", "", "$", "").Replace(n.Text)
	switch {
	case n.Quoted && spelling.IsPlain(n.Text):
		return "write it without quotes: " + n.Text
	case strings.HasSuffix(n.Text, "%"):
		return "write 35 percent as 0.35"
	case spelling.IsPlain(plain):
		return "write it as " + plain
	}
	return "write a plain decimal number such as 150 or 0.35, without unit"
}

// Text returns a scalar as typed, quoted or not: a name, number or code that is
// not computed with. It is one line.
func (r *Reader) Text(n Node, what string) (text string, ok bool) {
	switch {
	case n.Kind != Scalar:
		r.Refuse(n, fmt.Sprintf("%s is %s, not a word or number", what, n.describe()), "write one value")
	case n.Text == "":
		r.Refuse(n, what+" is empty", "give it a value")
	case strings.ContainsFunc(n.Text, unicode.IsControl):
		r.Refuse(n, what+" has a line break or control character", "write it on one line")
	case spelling.Hidden(n.Text) != "":
		r.Refuse(n, what+" has a character that is not seen, "+spelling.Hidden(n.Text), "type it again, without copying")
	default:
		return n.Text, true
	}
	return "", false
}

// Name returns the name or number of a farm, a tract or a person: a text that spelling.NameFault
// finds nothing wrong with.
func (r *Reader) Name(n Node, what string) (name string, ok bool) {
	if name, ok = r.Text(n, what); !ok {
		return "", false
	}
	if reason, hint := spelling.NameFault(name); reason != "" {
		r.Refuse(n, what+" "+reason, hint)
		return "", false
	}
	return name, true
}

// Truth returns true or false, which may also be written yes or no, y or n, t or f, 1 or 0.
func (r *Reader) Truth(n Node, what string) (truth, ok bool) {
	if truth, ok = spelling.Truth(n.Text); ok && n.Kind == Scalar {
		return truth, true
	}
	r.Refuse(n, fmt.Sprintf("%s is %s, not true or false", what, n.describe()), "write true or false")
	return false, false
}

// Spelled returns one of the allowed words, by any spelling that read knows.
func Spelled[W ~string](r *Reader, n Node, what string, read func(text string) (W, bool), allowed ...W) (word W, ok bool) {
	if word, ok = read(n.Text); ok && n.Kind == Scalar {
		return word, true
	}
	return Word(r, n, what, allowed...)
}

// Word returns one of the allowed words.
func Word[W ~string](r *Reader, n Node, what string, allowed ...W) (word W, ok bool) {
	words := make([]string, len(allowed))
	for i, w := range allowed {
		if words[i] = string(w); n.Kind == Scalar && n.Text == string(w) {
			return w, true
		}
	}
	r.Refuse(n, fmt.Sprintf("%s is %s", what, n.describe()), oneOf("it", n.Text, words))
	return "", false
}

// Date returns a day written 2026-11-10.
func (r *Reader) Date(n Node, what string) (day time.Time, ok bool) {
	return r.moment(n, what, time.DateOnly, "write year, month and day as 2026-11-10")
}

// Month returns the first day of a month written 2026-09.
func (r *Reader) Month(n Node, what string) (month time.Time, ok bool) {
	return r.moment(n, what, "2006-01", "write year and month as 2026-09")
}

func (r *Reader) moment(n Node, what, layout, hint string) (time.Time, bool) {
	at, err := time.Parse(layout, n.Text)
	if n.Kind != Scalar || err != nil {
		r.Refuse(n, fmt.Sprintf("%s is %s", what, n.describe()), hint)
		return time.Time{}, false
	}
	return at, true
}
