package fit

import (
	"os"
	"slices"
	"strings"
	"testing"
)

// HoldRows is for tests that need rooms which import this one.
var HoldRows = holdRows

// HoldNoOthers checks that parameters.csv has no other rows of the numbers estimated. With
// -update it takes them out.
func HoldNoOthers(t *testing.T, estimates []Estimate) {
	t.Helper()
	file, err := os.ReadFile(parameterFile)
	if err != nil {
		t.Fatal(err)
	}
	params, keys := map[string]bool{}, map[string]bool{}
	for _, e := range estimates {
		params[e.Param], keys[strings.Join(e.Row()[:4], ",")] = true, true
	}
	lines := strings.Split(strings.TrimSuffix(string(file), "\n"), "\n")
	kept := slices.DeleteFunc(slices.Clone(lines), func(line string) bool {
		cells := strings.Split(line, ",")
		return params[cells[0]] && !keys[strings.Join(cells[:4], ",")]
	})
	switch {
	case len(kept) == len(lines):
	case *update:
		if err := os.WriteFile(parameterFile, []byte(strings.Join(kept, "\n")+"\n"), 0o644); err != nil {
			t.Fatal(err)
		}
	default:
		t.Errorf("%s has %d rows that no table gives", parameterFile, len(lines)-len(kept))
	}
}
