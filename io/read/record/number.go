package record

import (
	"regexp"
	"strconv"
	"strings"
)

var (
	wholeOrDecimal = regexp.MustCompile(`^(?:[0-9]{1,3}(?:,[0-9]{3})+|[0-9]+)(?:\.[0-9]+)?$`)
	withPoint      = regexp.MustCompile(`\.[0-9]+$`)
	hasDigit       = regexp.MustCompile(`[0-9]`)
)

// read takes a number as the print writes it: digits, commas between thousands, a point.
// What is not one is kept as printed and not known.
func (f *Figure) read(c cell) {
	f.Text, f.Place = c.text, c.place
	if wholeOrDecimal.MatchString(c.text) {
		number, err := strconv.ParseFloat(strings.ReplaceAll(c.text, ",", ""), 64)
		f.Number, f.Known = number, err == nil
	}
}

// isAcres tells a number that has a point, as all acres of the print do.
func isAcres(c cell) bool { return wholeOrDecimal.MatchString(c.text) && withPoint.MatchString(c.text) }

// isCount tells a whole number.
func isCount(c cell) bool {
	return wholeOrDecimal.MatchString(c.text) && !withPoint.MatchString(c.text)
}

// show writes acres as the print does, to hundredths, without zeros at the end.
func show(number float64) string {
	text := strconv.FormatFloat(number, 'f', 2, 64)
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}
