package program

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// The parts of shared base are never negative, add up to the whole, and each is
// within a hundredth of its exact part.
func TestSharedBaseAddsUp(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		acres := float64(rapid.IntRange(0, 500_000).Draw(t, "hundredths")) / 100
		plantings := rapid.SliceOfN(rapid.Float64Range(0, 3000), 1, 8).Draw(t, "plantings")
		total := 0.0
		for _, p := range plantings {
			total += p
		}
		sum := 0.0
		for i, part := range SharedBase(acres, plantings) {
			sum += part
			if part < 0 || total > 0 && math.Abs(part-acres*plantings[i]/total) > 0.01+1e-9 {
				t.Fatalf("part %d of %v is %v by plantings %v", i, acres, part, plantings)
			}
		}
		if want := acres; total > 0 && math.Abs(sum-want) > 1e-6 || total == 0 && sum != 0 {
			t.Fatalf("the parts of %v add to %v", want, sum)
		}
	})
}

// New base is never negative, and with it the base never exceeds the farm.
func TestNewBaseStaysWithinTheFarm(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		acres := rapid.Map(rapid.IntRange(0, 200_000), func(hundredths int) float64 { return float64(hundredths) / 100 }) // as recorded
		n := NewBase{acres.Draw(t, "covered"), acres.Draw(t, "noncovered"), acres.Draw(t, "total"), acres.Draw(t, "base"), 0.15}
		added := n.Added()
		if added < 0 || added > 0 && n.ExistingBase+added > n.TotalAcres+0.005 {
			t.Fatalf("%+v adds %v", n, added)
		}
	})
}
