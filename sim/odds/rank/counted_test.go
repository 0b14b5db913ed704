package rank

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// Order statistics are those of a sort, whatever the values: many equal ones, a
// single one, far outliers, negative ones; of a part those of a sort of the part.
func TestOrderStatisticsAreThoseOfASort(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		values := rapid.SliceOfN(rapid.OneOf(rapid.Just(0.0), rapid.Just(96.09), rapid.Float64Range(-3, 100), rapid.Float64Range(-1e9, 1e9)), 1, 300).Draw(t, "values")
		whole, part := Count(values), &Counted{}
		defer whole.Release()
		from := rapid.IntRange(0, len(values)-1).Draw(t, "from")
		to := rapid.IntRange(from+1, len(values)).Draw(t, "to")
		whole.Part(part, from, to)
		for name, one := range map[string]struct {
			counted *Counted
			values  []float64
		}{"all": {whole, values}, "a part": {part, values[from:to]}} {
			sorted := slices.Sorted(slices.Values(one.values))
			var places []int
			for k := range sorted {
				places = append(places, k)
			}
			places = append(places, 0) // and back
			got := make([]float64, len(places))
			one.counted.At(got, places)
			for i, k := range places {
				if got[i] != sorted[k] {
					t.Fatalf("%s, place %d: got %g, want %g", name, k, got[i], sorted[k])
				}
			}
		}
	})
}
