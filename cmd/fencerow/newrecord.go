package main

import (
	"fmt"
	"io"

	"fencerow/io/read/document"
	"fencerow/io/source"
)

// asking returns what asks: without the text of a record all questions, else those that
// the text leaves open.
func (i *interview) asking(print string) (asker, error) {
	if print == "" {
		return source.NewAsking(source.TwoPractices), nil
	}
	text, err := i.printed(print)
	if err != nil {
		return nil, err
	}
	recorded, err := source.NewRecorded(print, text, nil)
	if err != nil {
		return nil, err
	}
	i.lines = recorded.Lines
	i.say("Experimental: no real print was at hand when this was made. Check every figure against your print.")
	for _, line := range recorded.Warnings() {
		i.say("Check: " + line + ".")
	}
	for _, line := range recorded.Unread() {
		i.say("Not understood: " + line)
	}
	return recorded, nil
}

// printed reads the text of a record. From standard input, no answers can follow it.
func (i *interview) printed(path string) ([]byte, error) {
	if path != stdinArg {
		return document.Load(path)
	}
	i.patient, i.skipping = false, true
	return io.ReadAll(i.in)
}

// showLines shows every figure with its number and place, once: after that, only what
// changes is told.
func (i *interview) showLines() {
	if i.shown {
		return
	}
	i.shown = true
	lines, what, value := i.lines(), 0, 0
	for _, line := range lines {
		what, value = max(what, len(line.What)), max(value, len(line.Value))
	}
	for n, line := range lines {
		i.say(fmt.Sprintf("%3d  %-*s  %-*s  %s", n+1, what, line.What, value, line.Value, line.Place))
	}
}
