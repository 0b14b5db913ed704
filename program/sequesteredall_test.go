package program

import (
	"testing"

	"fencerow/program/farm"
)

// Where sequestration withholds every payment nothing is paid, whatever the limit: it is a figure all the same, and not
// a limit over nothing.
func TestLimitWhereAllIsSequestered(t *testing.T) {
	a := NewAttribution([]farm.Producer{{ID: "a", Kind: farm.Person}}, LimitRule{Limit: 100, CropYear: 2026, Reduced: 1})
	if got := a.Recipients[0].Room(GeneralPool); got != 100 {
		t.Errorf("a limit of %v, want 100", got)
	}
	if got := AfterSequestration(100, 1); got != 0 {
		t.Errorf("%v is paid", got)
	}
}
