package odds

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

// Two samples of any shape take the rank correlation of the shocks: Spearman (6/pi)
// asin(r/2) for normals of correlation r (corn and soybeans 0.68: 0.6634), and keep
// their own values.
func TestReorderedSamples(t *testing.T) {
	s := newSampler(t, NewScenarios(1, DefaultScenarios))
	corn, soybeans := s.PriceShock(crop.Corn), s.PriceShock(crop.Soybeans)
	a := Reordered([]float64{3.1, 3.5, 3.6, 3.9, 4.0, 4.4, 7.5}, corn)
	b := Reordered([]float64{9, 9, 9, 10, 12, 12.5}, soybeans)
	ranks := func(values, shocks []float64) []float64 {
		order := make([]int, len(shocks))
		for i := range order {
			order[i] = i
		}
		slices.SortFunc(order, func(i, j int) int { return int(math.Copysign(1, shocks[i]-shocks[j])) })
		out := make([]float64, len(values))
		for rank, i := range order {
			out[i] = float64(rank)
		}
		return out
	}
	want := 6 / math.Pi * math.Asin(0.68/2)
	if got := stat.Correlation(ranks(a, corn), ranks(b, soybeans), nil); math.Abs(got-want) > 0.005 {
		t.Errorf("rank correlation %.4f, want %.4f", got, want)
	}
	p := PercentilesOf(a)
	if math.Abs(p[3]-3.9) > 1e-3 || slices.Max(a) > 7.5 || slices.Min(a) < 3.1 {
		t.Errorf("percentiles %v of the sample with middle 3.9", p)
	}
	for i := range a {
		if j := (i + 1) % len(a); (corn[i] < corn[j]) && a[i] > a[j] {
			t.Fatal("a higher shock has a lower value")
		}
	}
	skew := append(slices.Repeat([]float64{4}, 19), 8) // 84/20 = 4.20: the mean stays
	if got := Mean(Reordered(skew, corn)); math.Abs(got-4.20) > 1e-3 {
		t.Errorf("mean %.4f, want 4.20", got)
	}
	if one := Reordered([]float64{5}, []float64{1, -1}); one[0] != 5 || one[1] != 5 {
		t.Errorf("one value: %v", one)
	}
}
