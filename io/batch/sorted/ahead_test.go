package sorted

import (
	"errors"
	"slices"
	"strings"
	"testing"
)

// Files that are read ahead give their lines in order, empty files none, and say which one
// cannot be read.
func TestAhead(t *testing.T) {
	read := func(name string) ([]string, error) {
		if name == "broken" {
			return nil, errors.New("cannot be read")
		}
		return strings.Fields(name), nil
	}
	joined := func(shares ...[]string) (got []string, err error) {
		var all []*Files[string]
		for _, names := range shares {
			all = append(all, Ahead(names, read))
		}
		err = Merge(all, func(a, b string) bool { return a < b }, func(line string) error { got = append(got, line); return nil })
		return got, err
	}
	got, err := joined([]string{"a c", "", "e g", "i k", "m o", "q"}, nil, []string{"b d", "f", "z"})
	if want := strings.Fields("a b c d e f g i k m o q z"); err != nil || !slices.Equal(got, want) {
		t.Errorf("%q, %v, want %q", got, err, want)
	}
	got, err = joined([]string{"a", "b", "c", "broken", "d"})
	if want := []string{"a", "b", "c"}; err == nil || err.Error() != "broken: cannot be read" || !slices.Equal(got, want) {
		t.Errorf("%q, %v, want %q and the name of the file", got, err, want)
	}
}
