package corrections

import (
	"errors"
	"strings"
	"testing"

	"fencerow/program/farm"
)

const (
	begin = "format: fencerow/corrections/1\nas_of: 2026-12-15\ncorrections:\n"
	entry = "  - {id: a, first_wrong: 1.2.0, fixed_in: 1.10.0, wrong: w, affects: x, do: y, source: z}\n"
)

// A release is wrong from the first that had the figure wrong to the last before it was
// right; numbers are compared as numbers.
func TestOf(t *testing.T) {
	list, err := Parse("c.yaml", []byte(begin+entry+strings.Replace(strings.Replace(entry, "id: a", "id: b", 1), "fixed_in: 1.10.0, ", "", 1)))
	if err != nil || list.AsOf.Format("2006-01-02") != "2026-12-15" || len(list.All) != 2 {
		t.Fatalf("%+v, %v", list, err)
	}
	if want := (Correction{"a", "1.2.0", "1.10.0", "w", "x", "y", "z"}); list.All[0] != want {
		t.Errorf("%+v, want %+v", list.All[0], want)
	}
	for release, want := range map[string]string{"0.9.9": "", "1.1.9": "", "1.2.0": "ab", "1.9.0": "ab", "1.10.0": "b", "1.10.1": "b", "2.0.0": "b"} {
		got := ""
		for _, c := range list.Of(release) {
			got += c.ID
		}
		if got != want {
			t.Errorf("%s: %q, want %q", release, got, want)
		}
	}
	if empty, err := Parse("c.yaml", []byte(strings.TrimSuffix(begin, "\n")+" []\n")); err != nil || len(empty.All) != 0 {
		t.Errorf("a list without corrections: %+v, %v", empty, err)
	}
}

// A list that says something else than its author meant is refused with its line.
func TestWrongLists(t *testing.T) {
	for text, want := range map[string]string{
		"":                                 "line 1: the file is empty",
		"format: fencerow/corrections/2\n": "line 1: the format is",
		"format: fencerow/market/1\n":      "line 1: the format is",
		begin:                              "line 3: corrections of the list of corrections is empty",
		strings.Replace(begin, "2026-12-15", "15 December", 1) + entry: "line 2: ",
		begin + entry + entry:                                        `line 5: the correction "a" stands twice`,
		begin + strings.Replace(entry, "1.10.0", "1.1.0", 1):         "line 4: fixed_in is 1.1.0, first_wrong is 1.2.0",
		begin + strings.Replace(entry, "1.10.0", "1.10", 1):          `line 4: fixed_in is "1.10"`,
		begin + strings.Replace(entry, "1.2.0", "v1.2.0", 1):         `line 4: first_wrong is "v1.2.0"`,
		begin + strings.Replace(entry, "do: y, ", "", 1):             "line 4: the correction has no do",
		begin + strings.Replace(entry, "do: y", "do: y, then: z", 1): `line 4: "then" is no key of the correction`,
		begin + strings.Replace(entry, "do: y", "do: [y]", 1):        "line 4: ",
	} {
		_, err := Parse("c.yaml", []byte(text))
		var mistakes farm.Mistakes
		if !errors.As(err, &mistakes) || !strings.Contains(err.Error(), want) {
			t.Errorf("%q: %v, want %q", text, err, want)
		}
	}
}
