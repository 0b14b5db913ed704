package odds

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

// The shuffle takes every point of a replicate once, a block of points by a
// block of scenarios.
func TestOrderIsAShuffleOfBlocks(t *testing.T) {
	for _, d := range []Scenarios{NewScenarios(1, 1), NewScenarios(1, 16*256), NewScenarios(1, DefaultScenarios)} {
		s := newSampler(t, d)
		seen := map[uint32]bool{}
		n := min(d.Points, tilePoints)
		indices := make([]uint32, n)
		for first := 0; first < d.Points; first += n {
			s.order(indices, 3, first)
			for _, i := range indices {
				if seen[i] || int(i) >= d.Points || i/uint32(n) != indices[0]/uint32(n) {
					t.Fatalf("%d points: index %d among %v", d.Points, i, indices)
				}
				seen[i] = true
			}
		}
	}
}

// Price shocks of different crop years are independent: their correlation over
// 65,536 scenarios is within bound of what chance makes of as many independent
// scenarios, 1/256, in every pair of six years.
func TestCropYearsAreIndependent(t *testing.T) {
	const bound = 4.0
	d := NewScenarios(1, DefaultScenarios)
	var shocks [][]float64
	for y := crop.CropYear(2026); y <= 2031; y++ {
		s, err := NewSampler(d, y, nil)
		if err != nil {
			t.Fatal(err)
		}
		shocks = append(shocks, s.PriceShock(crop.Corn), s.YieldShock(YieldKey{"99001", "all", crop.Corn}, YieldDependence{Counties: 0.3}).All())
	}
	for i := range shocks {
		for j := range i {
			if i/2 == j/2 {
				continue // one year: evenly spread together
			}
			if r := stat.Correlation(shocks[i], shocks[j], nil); math.Abs(r) > bound/math.Sqrt(float64(d.N())) {
				t.Errorf("series %d and %d: correlation %.4f", i, j, r)
			}
		}
	}
}
