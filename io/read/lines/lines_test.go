package lines_test

import (
	"testing"

	"fencerow/io/read/lines"
)

// A line of blanks is blank; one that cannot be taken apart is not, though it has no cells.
func TestBlank(t *testing.T) {
	for name, one := range map[string]struct {
		line lines.Line
		want bool
	}{
		"no cells":     {lines.Line{}, true},
		"blanks":       {lines.Line{Cells: []string{"", " ", "\t", "\u00a0"}}, true},
		"a zero":       {lines.Line{Cells: []string{"", "0"}}, false},
		"out of order": {lines.Line{Fault: "has a quotation mark out of place"}, false},
	} {
		if one.line.Blank() != one.want {
			t.Errorf("%s: blank %v", name, !one.want)
		}
	}
}
