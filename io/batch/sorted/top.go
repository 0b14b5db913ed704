package sorted

import (
	"slices"
)

// Top holds the lines of highest value; among equals the first.
type Top[T any] struct{ Lines []Valued[T] }

// Valued is a line with its value.
type Valued[T any] struct {
	Value float64
	Line  T
}

// Add adds a line, if it is among the most of highest value.
func (t *Top[T]) Add(value float64, line T, most int) {
	if len(t.Lines) == most && value <= t.Lines[most-1].Value {
		return
	}
	at, _ := slices.BinarySearchFunc(t.Lines, value, func(v Valued[T], value float64) int {
		if v.Value >= value {
			return -1 // equals before it stay before it
		}
		return 1
	})
	t.Lines = slices.Insert(t.Lines, at, Valued[T]{value, line})
	t.Lines = t.Lines[:min(len(t.Lines), most)]
}
