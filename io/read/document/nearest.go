package document

import (
	"fmt"
	"strings"
)

// oneOf is a hint that names the nearest of the known words, or all of them
// where none is near. what is "the key" or "it".
func oneOf(what, typed string, known []string) string {
	if near := Nearest(typed, known, usualPart); near != "" {
		return fmt.Sprintf("did you mean %s? %s can be %s", near, strings.ToUpper(what[:1])+what[1:], strings.Join(known, ", "))
	}
	return fmt.Sprintf("%s can be %s", what, strings.Join(known, ", "))
}

// usualPart is the part of a word that may be mistyped: one letter in three.
const usualPart = 3

// Nearest returns the known word with the fewest letters to change, or "" where
// more than one in so many would have to change.
func Nearest(typed string, known []string, part int) string {
	const longest = 60 // letters; no known word comes near
	if len(typed) > longest {
		return ""
	}
	best, fewest := "", len(typed)
	for _, word := range known {
		limit := max(1, max(len(typed), len(word))/part)
		if d := changes(strings.ToLower(typed), strings.ToLower(word)); d <= limit && d < fewest {
			best, fewest = word, d
		}
	}
	return best
}

// changes is the number of letters to insert, delete or replace to turn a into
// b (Levenshtein's distance, by bytes).
func changes(a, b string) int {
	row := make([]int, len(b)+1)
	for j := range row {
		row[j] = j
	}
	for i := range len(a) {
		diagonal := row[0]
		row[0] = i + 1
		for j := range len(b) {
			replace := diagonal
			if a[i] != b[j] {
				replace++
			}
			diagonal = row[j+1]
			row[j+1] = min(replace, row[j]+1, row[j+1]+1)
		}
	}
	return row[len(b)]
}
