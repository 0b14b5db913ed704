package terminal

import (
	"fmt"
	"io"

	"fencerow/program/farm"
)

// ErrorFormat names the JSON of mistakes.
const ErrorFormat = "fencerow/error/1"

// Error is what is printed as JSON where there is no answer.
type Error struct {
	Format   string        `json:"format"` // fencerow/error/1
	Mistakes farm.Mistakes `json:"mistakes"`
}

// ErrorOf is the JSON of mistakes.
func ErrorOf(mistakes farm.Mistakes) Error { return Error{ErrorFormat, mistakes} }

// WriteMistakes writes a line for each mistake, with file, line and column where they are
// known, and one for what to do. What w does not take is lost: there is nobody to tell.
func WriteMistakes(w io.Writer, mistakes farm.Mistakes) {
	for _, m := range mistakes {
		where := ""
		if m.File != "" {
			where = m.File
			if m.Line > 0 {
				where += fmt.Sprintf(" line %d", m.Line)
			}
			if m.Column > 0 {
				where += fmt.Sprintf(" column %d", m.Column)
			}
			where += ": "
		}
		fmt.Fprintf(w, "fencerow: error: %s\n", OneLine(where+m.Reason))
		if m.Hint != "" {
			fmt.Fprintf(w, "fencerow: hint: %s\n", OneLine(m.Hint))
		}
	}
}
