package farm

import (
	"fmt"
	"strings"
)

// Mistake is one thing wrong in a file: what, where, which value, what to do.
type Mistake struct {
	File   string `json:"file"`
	Line   int    `json:"line"`
	Column int    `json:"column"`
	Value  string `json:"value"`
	Reason string `json:"reason"` // "corn base acres is -20"
	Hint   string `json:"hint"`   // "copy base acres from the FSA farm record"
}

// Error returns the mistake in one line, without the hint.
func (m Mistake) Error() string {
	return fmt.Sprintf("%s line %d: %s", m.File, m.Line, m.Reason)
}

// Mistakes are all those of one reading, in file order. They are an error.
type Mistakes []Mistake

func (m Mistakes) Error() string {
	lines := make([]string, len(m))
	for i, one := range m {
		lines[i] = one.Error()
	}
	return strings.Join(lines, "\n")
}
