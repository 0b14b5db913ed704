package odds

import (
	"math"
	"testing"

	"fencerow/program/crop"
)

// A farm's whole standard deviation is 1.6 times its county's: own part and county part are
// independent, so their squares add.
func TestFarmSpread(t *testing.T) {
	const cv = 0.15
	own := FarmOwnCV(cv)
	if whole := math.Hypot(own, cv); math.Abs(whole-1.6*cv) > 1e-12 {
		t.Errorf("own %v with county %v is %v, want %v", own, cv, whole, 1.6*cv)
	}
}

// The own part is a standard normal, unrelated to county, price and other farms.
func TestFarmShockIsItsOwn(t *testing.T) {
	s, err := NewSampler(NewScenarios(1, 65536), 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	const most = 0.02 // five standard errors of a correlation over 65,536 scenarios
	own := s.FarmShock("99001-0417", crop.Corn).All()
	if mean, sd := Mean(own), math.Sqrt(correlationOf(own, own)); math.Abs(mean) > most || math.Abs(sd-1) > most {
		t.Errorf("mean %v and sd %v, want 0 and 1", mean, sd)
	}
	county := s.YieldShock(YieldKey{"99001", "all", crop.Corn}, YieldDependence{Price: -0.4, Counties: 0.7}).All()
	for name, other := range map[string][]float64{
		"county yield": county, "price": s.PriceShock(crop.Corn), "other farm": s.FarmShock("99001-0588", crop.Corn).All(), "other crop": s.FarmShock("99001-0417", crop.Soybeans).All(),
	} {
		if r := correlationOf(own, other); math.Abs(r) > most {
			t.Errorf("correlates %v with the %s", r, name)
		}
	}
}

// correlationOf returns the mean product of two series of mean 0.
func correlationOf(a, b []float64) float64 {
	product := make([]float64, len(a))
	for i := range a {
		product[i] = a[i] * b[i]
	}
	return Mean(product)
}
