package flag

import (
	"slices"
	"strings"
	"testing"

	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/limits"
)

// A table that should be out is named with its page and the line that imports it; one that
// is not yet out with the month in which it is expected.
func TestCountyStaleSaysWhatToDo(t *testing.T) {
	for today, want := range map[string][]string{
		"2026-11-25": {"ARC-CO trend adjusted yields", countyTablesPage, "fencerow county import ARCCO_2026.xlsx"},
		"2026-02-15": {"is usually out by now"},
		"2026-02-14": {"publishes its 2026 table around February 2026"},
	} {
		c := cases.Corn()
		c.Today = invented.Date(today)
		people, err := limits.NewRules(c.Operation, 2026)
		if err != nil {
			t.Fatal(err)
		}
		flags := Raise(c, c.Operation.Farms[0], people)
		i := slices.IndexFunc(flags, func(f answer.Flag) bool { return f.Code == "county_stale" })
		if i < 0 {
			t.Fatalf("%s: no county_stale", today)
		}
		for _, words := range want {
			if !strings.Contains(flags[i].Message, words) {
				t.Errorf("%s: %q is not in %q", today, words, flags[i].Message)
			}
		}
	}
}
