package lines

import (
	"errors"
	"io/fs"
	"strings"

	"fencerow/program/farm"
)

// Line is one line of a table, before its cells are understood.
type Line struct {
	Number int // from 1
	Cells  []string
	Fault  string // why the line cannot be taken apart; "": it can
}

// Blank reports whether a line holds nothing but blanks.
func (l Line) Blank() bool {
	for _, cell := range l.Cells {
		if strings.TrimSpace(cell) != "" {
			return false
		}
	}
	return l.Fault == ""
}

// Lines is a table from its first line to its last. Next returns io.EOF after the last;
// any other error ends the reading.
type Lines interface {
	Next() (Line, error)
	Close() error
}

// Refuse is the one mistake for which a file is not read, or not read on.
func Refuse(path, value, reason, hint string) farm.Mistakes {
	return farm.Mistakes{{File: path, Value: value, Reason: reason, Hint: hint}}
}

// Unreadable is the mistake of a file that cannot be opened or read.
func Unreadable(path string, err error) farm.Mistakes {
	var inner *fs.PathError
	if errors.As(err, &inner) {
		err = inner.Err // the message has its name already
	}
	return Refuse(path, "", "cannot be read: "+err.Error(), "check the name and that the file can be opened")
}
