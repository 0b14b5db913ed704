package odds

import (
	"testing"
)

// What fits says is the t-value of two dimensions, worked out in full for the State's
// dimension of corn in each of its eight places.
func TestFitsIsTheTValue(t *testing.T) {
	const m = 8
	checked := 0
	for place := range 8 {
		with := 2*(2+place) + 1
		good := fits(with, m)
		for i, v := range sobolTable()[2*len(importance):] {
			if value := tValue(m, sobolTable()[with], v); good[2*len(importance)+i] != (value <= mostUneven) {
				t.Errorf("dimension %d with county dimension %d: t %d, fits %v", with, i, value, good[2*len(importance)+i])
			}
			checked++
		}
	}
	t.Logf("checked %d pairs", checked)
}

// The dimensions of one county differ in every replicate, and nearly all fit that of their
// State; only where none of three places does, one is left that does not.
func TestCountyDimensionsFitTheirState(t *testing.T) {
	const most = 0.01
	s := newSampler(t, NewScenarios(1, DefaultScenarios))
	badly, all := 0, 0
	for _, county := range []string{"17001", "19001", "20003", "48005", "99001", "99003"} {
		for replicate := range Replicates {
			seen := map[int]bool{}
			for j := range importance {
				good := fits(s.stateDimension(stateOf(county), replicate, j), s.scenarios.pointBits())
				for practice := range practices {
					d := s.countyDimension(county, replicate, practice*len(importance), j)
					if seen[d] || d < 2*len(importance) {
						t.Errorf("county %s, replicate %d: dimension %d twice, or shared", county, replicate, d)
					}
					seen[d] = true
					all++
					if !good[d] {
						badly++
					}
				}
			}
		}
	}
	if float64(badly) > most*float64(all) {
		t.Errorf("%d of %d dimensions fit their State's badly", badly, all)
	}
	t.Logf("%d of %d dimensions fit their State's badly", badly, all)
}
