package odds

import (
	"math"
	"testing"

	"fencerow/program/crop"
)

// The example of Higham (2002), section 4.1, to ten digits.
func TestNearestCorrelationMatrix(t *testing.T) {
	const tolerance = 1e-8
	m := newMatrix(3)
	m.set(0, 1, 1)
	m.set(1, 2, 1)
	m.set(0, 2, 0)
	near := m.nearest()
	for _, want := range []struct {
		i, j int
		r    float64
	}{{0, 1, 0.7606898534}, {1, 2, 0.7606898534}, {0, 2, 0.1572981061}, {1, 1, 1}} {
		if got := near[want.i][want.j]; math.Abs(got-want.r) > tolerance {
			t.Errorf("element %d, %d is %.10f, want %.10f", want.i, want.j, got, want.r)
		}
	}
}

// Correlations that are nearly possible are moved a little, and it is reported; a
// move of more than 0.05 is refused.
func TestRepairedPriceCorrelations(t *testing.T) {
	d := NewScenarios(1, 1024)
	least := 0.68 // the default, which holds
	for ; least > -1; least -= 0.01 {
		if _, ok := priceMatrix([]pairCorrelation{{crop.Corn, crop.Soybeans, least}}).cholesky(); !ok {
			break
		}
	}
	s, err := NewSampler(d, 2026, PriceCorrelations{crop.Corn: {crop.Soybeans: least - 0.01}})
	if err != nil || len(s.Repairs()) == 0 {
		t.Fatalf("%v; nothing reported", err)
	}
	for _, r := range s.Repairs() {
		if (r.A == crop.Corn && r.B == crop.Soybeans || r.A == crop.Soybeans && r.B == crop.Corn) && math.Abs(r.To-r.From) > mostRepaired {
			t.Errorf("moved from %v to %v", r.From, r.To)
		}
	}
	if _, err := NewSampler(d, 2026, PriceCorrelations{crop.Corn: {crop.Soybeans: -0.95}}); err == nil {
		t.Error("a correlation far from possible is accepted")
	}
	if s, err := NewSampler(d, 2026, nil); err != nil || s.Repairs() != nil {
		t.Errorf("the default correlations are repaired: %v, %v", s.Repairs(), err)
	}
}
