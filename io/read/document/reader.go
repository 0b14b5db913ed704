package document

import (
	"fmt"
	"regexp"
	"slices"
	"sort"
	"strconv"
	"strings"

	"fencerow/program/farm"
)

// Reader reads values from a tree and notes what is wrong with them. It never
// stops at a mistake: all of a file are reported at once.
type Reader struct {
	file     string
	mistakes farm.Mistakes
}

// NewReader returns a reader whose mistakes name the file.
func NewReader(file string) *Reader { return &Reader{file: file} }

// Refuse notes a mistake at n.
func (r *Reader) Refuse(n Node, reason, hint string) {
	r.mistakes = append(r.mistakes, farm.Mistake{File: r.file, Line: max(n.Line, 1), Column: max(n.Column, 1), Value: shorten(n.Text), Reason: reason, Hint: hint})
}

// Check notes the fault at n, if there is one, and reports whether there is none.
func (r *Reader) Check(n Node, fault *farm.Fault) bool {
	if fault != nil {
		r.Refuse(n, fault.Reason, fault.Hint)
	}
	return fault == nil
}

// Err returns all mistakes in file order as an error of type farm.Mistakes, or
// nil where there are none.
func (r *Reader) Err() error {
	if len(r.mistakes) == 0 {
		return nil
	}
	sort.SliceStable(r.mistakes, func(i, j int) bool {
		a, b := &r.mistakes[i], &r.mistakes[j]
		return a.Line < b.Line || a.Line == b.Line && a.Column < b.Column
	})
	return r.mistakes
}

// Field is a key that a map may have.
type Field struct {
	key  string
	must bool
	read func(value Node)
}

// Must is a key that has to be there with a value.
func Must(key string, read func(value Node)) Field { return Field{key: key, must: true, read: read} }

// May is a key that can be left out or left empty; read is not called then.
func May(key string, read func(value Node)) Field { return Field{key: key, read: read} }

// Fields reads the keys of the map n, in the order of the fields and not of the
// file, so that what a key depends on can be read before it. Unknown, repeated
// and missing keys are refused. what names the map in messages: "farm 0417".
func (r *Reader) Fields(n Node, what string, fields ...Field) {
	if !r.isMap(n, what) {
		return
	}
	keys := make([]string, len(fields))
	for i, f := range fields {
		keys[i] = f.key
	}
	for _, pair := range r.distinct(n) {
		if !slices.Contains(keys, pair.Key().Text) {
			r.Refuse(pair.Key(), fmt.Sprintf("%q is no key of %s", shorten(pair.Key().Text), what), oneOf("the key", pair.Key().Text, keys))
		}
	}
	for _, f := range fields {
		value := n.Get(f.key)
		switch {
		case value.Kind != Empty:
			f.read(value)
		case f.must && value.Line > 0:
			r.Refuse(value, fmt.Sprintf("%s of %s is empty", f.key, what), "give it a value")
		case f.must:
			r.Refuse(n, fmt.Sprintf("%s has no %s", what, f.key), fmt.Sprintf("add %s:", f.key))
		}
	}
}

// Entries reads a map whose keys are free, in file order; repeated keys are
// refused and empty values skipped.
func (r *Reader) Entries(n Node, what string, read func(key, value Node)) {
	if !r.isMap(n, what) {
		return
	}
	for _, pair := range r.distinct(n) {
		if pair.Value.Kind != Empty {
			read(pair.Key(), pair.Value)
		}
	}
}

// Items reads a list in file order.
func (r *Reader) Items(n Node, what string, read func(item Node)) {
	if n.Kind != List {
		r.Refuse(n, fmt.Sprintf("%s is %s, not a list", what, n.describe()), "write each entry on a line of its own that begins with a dash, or [a, b]")
		return
	}
	for _, item := range n.Items {
		read(item)
	}
}

func (r *Reader) isMap(n Node, what string) bool {
	if n.Kind != Map {
		r.Refuse(n, fmt.Sprintf("%s is %s, not a map of keys", what, n.describe()), "write key: value, each on its own line or as {key: value}")
	}
	return n.Kind == Map
}

// distinct returns the pairs of a map, each key once, and refuses the repeated.
func (r *Reader) distinct(n Node) []Pair {
	lines := make(map[string]int, len(n.Pairs))
	var pairs []Pair
	for i, pair := range n.Pairs {
		if i > 0 && cutByComma(n.Pairs[i-1].Value, pair) {
			whole := n.Pairs[i-1].Value
			whole.Text += "," + pair.Key().Text
			r.Refuse(whole, fmt.Sprintf("%s is cut by its comma", whole.describe()), "inside { } write the number without a comma, or in quotes")
			continue
		}
		if line, twice := lines[pair.Key().Text]; twice {
			r.Refuse(pair.Key(), fmt.Sprintf("the key %q stands twice", shorten(pair.Key().Text)), fmt.Sprintf("it is also on line %d; keep one of them", line))
			continue
		}
		lines[pair.Key().Text] = pair.Key().Line
		pairs = append(pairs, pair)
	}
	return pairs
}

var (
	beginsNumber = regexp.MustCompile(`^[+$-]*[0-9]+$`)
	endsNumber   = regexp.MustCompile(`^[0-9]+(\.[0-9]*)? ?%?$`)
)

// cutByComma reports whether a key without a value is the rest of the number before it,
// as in {general: 1,204.5}: YAML takes the comma for the end of the value.
func cutByComma(before Node, after Pair) bool {
	return after.Value.Kind == Empty && before.Kind == Scalar && !before.Quoted && !after.Key().Quoted && before.Line == after.Key().Line &&
		before.Column+len(before.Text)+1 == after.Key().Column && beginsNumber.MatchString(before.Text) && endsNumber.MatchString(after.Key().Text)
}

// Format reads the format line of a file, such as fencerow/operation/1, and
// reports whether the rest can be read: another kind of file, or a newer one,
// would only give a flood of mistakes.
func (r *Reader) Format(root Node, want string) bool {
	if root.Kind != Map {
		is := root.describe()
		if root.Kind == Scalar {
			is = "one text" // which is not shown: it may be a file that is none of ours
		}
		r.Refuse(root, fmt.Sprintf("the file is %s, not a map of keys", is), "begin it with format: "+want)
		return false
	}
	got := root.Get("format")
	if got.Kind == Empty || got.Text == want {
		return true // a missing format is refused among the keys
	}
	hint := "write format: " + want
	kind := func(format string) string { return format[:strings.LastIndex(format, "/")+1] }
	if other := kind(got.Text); strings.HasPrefix(got.Text, "fencerow/") && other != kind(want) {
		hint = fmt.Sprintf("this is another kind of file: give a %s file here", want)
	} else if other == kind(want) && newer(got.Text, want) {
		hint = fmt.Sprintf("this version of the program reads %s; a newer version may read this file", want)
	}
	r.Refuse(got, fmt.Sprintf("the format is %s, not %q", got.describe(), want), hint)
	return false
}

// newer reports whether a format has a higher number than another of its kind.
func newer(format, than string) bool {
	number := func(text string) (n int, err error) { return strconv.Atoi(text[strings.LastIndex(text, "/")+1:]) }
	n, err := number(format)
	of, bad := number(than)
	return err == nil && bad == nil && n > of
}
