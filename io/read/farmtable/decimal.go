package farmtable

import (
	"fmt"
	"regexp"
	"strings"
)

// decimalSigns are the first numbers of a file, with their lines, that have a decimal comma
// and that have a point which may part thousands.
type decimalSigns struct{ comma, point seenNumber }

// seenNumber is a number as it stands in a line; 0: none.
type seenNumber struct {
	text string
	line int
}

// pointOfThousands is a number whose point parts thousands where decimals have a comma.
var pointOfThousands = regexp.MustCompile(`^[+-]?[1-9][0-9]{0,2}\.[0-9]{3}$`)

// oneDecimalSign refuses a number by which the file has decimals with a comma and
// numbers such as 1.204, which is then 1204 or a little more than 1.
func (r *rowReader) oneDecimalSign(c column, text string) bool {
	seen, other := &r.points.point, r.points.comma
	switch {
	case strings.LastIndexByte(text, ',') > strings.LastIndexByte(text, '.'):
		seen, other = &r.points.comma, r.points.point
	case !pointOfThousands.MatchString(text):
		return true
	}
	if seen.line == 0 {
		*seen = seenNumber{text, r.row.Line}
	}
	if other.line == 0 {
		return true
	}
	r.refuse(c, fmt.Sprintf("%s is %q, and line %d has %q: one of the two has another sign for decimals", columns[c].name, text, other.line, other.text), "write decimals alike in every row, with a point: 1234.5")
	return false
}
