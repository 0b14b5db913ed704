package book

import (
	"errors"
	"fmt"
	"path/filepath"
	"time"

	"fencerow/program/farm"
)

// mostNotesShown keeps a noisy file from flooding the screen.
const mostNotesShown = 10

// ImportAll puts files into the book one after the other, and returns why those that it
// left out could not be taken. tell gets a line for each file begun and each line of it
// that was not understood. Any other error ends the reading.
func (b *Book) ImportAll(paths []string, today time.Time, strict bool, tell func(line string)) (all []Imported, left farm.Mistakes, err error) {
	for _, path := range paths {
		tell("reading " + filepath.Base(path))
		done, err := b.Import(path, today, strict)
		var mistakes farm.Mistakes
		if errors.As(err, &mistakes) {
			left = append(left, mistakes...)
			continue
		}
		if err != nil {
			return nil, nil, err
		}
		for i, note := range done.Notes {
			if i == mostNotesShown {
				tell(fmt.Sprintf("note: %s: and %d more lines", done.File, done.Noted-mostNotesShown))
				break
			}
			tell(fmt.Sprintf("note: %s %s", done.File, note))
		}
		all = append(all, done)
	}
	return all, left, nil
}

// String is the line for people.
func (d Imported) String() string {
	switch what := fmt.Sprintf("%s: %s %s, %s, edition %s", d.File, d.Agency, d.Layout, d.Subject, d.Edition); {
	case d.Already:
		return what + ": already in the book, nothing changed"
	case d.Older:
		return what + ": a newer edition is in the book, so no figure is taken"
	case d.Took != "":
		return fmt.Sprintf("%s: %d figures, replacing %s", what, d.Figures, d.Took)
	default:
		return fmt.Sprintf("%s: %d figures", what, d.Figures)
	}
}

// String is the line for people.
func (l Listed) String() string {
	line := fmt.Sprintf("%s  %s: %d crops, %d to %d", l.Code, l.Name, len(l.Commodities), l.First, l.Last)
	if l.Table != 0 {
		line += fmt.Sprintf(", newest county table %d", l.Table)
	}
	return line
}

// String is the line for people.
func (f File) String() string {
	line := fmt.Sprintf("%s: %s %s, %s, edition %s, %d figures, imported %s", f.Name, f.Agency, f.Layout, f.Subject, f.Edition, f.Figures, f.Imported)
	if f.Replaced {
		line += ", replaced by a newer edition"
	}
	return line
}
