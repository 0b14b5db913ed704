package odds

import (
	"math"
	"testing"
)

// Two paired samples, added up by hand: where B is more it is more by 10, 20,
// 17.5, 12.38, 57.38 and 50, together 167.26 over ten draws; where A is more, by
// 40 and 65.
func TestCostOfWrongPick(t *testing.T) {
	a := []float64{0, 0, 0, 12.5, 40, 65, 82.62, 82.62, 0, 5}
	b := []float64{0, 10, 20, 30, 0, 0, 95, 140, 0, 55}
	const tolerance = 1e-9
	if got := CostOfWrongPick(a, b); math.Abs(got-16.726) > tolerance {
		t.Errorf("picking A costs %v, want 16.726", got)
	}
	if got := CostOfWrongPick(b, a); math.Abs(got-10.5) > tolerance {
		t.Errorf("picking B costs %v, want 10.5", got)
	}
}
