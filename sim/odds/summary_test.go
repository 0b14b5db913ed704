package odds

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
)

func TestDrawsAreRoundedUp(t *testing.T) {
	for _, c := range []struct{ ask, points int }{{65536, 4096}, {0, 1024}, {-5, 1024}, {1, 16}, {256, 16}, {257, 32}, {65537, 8192}, {10_000, 1024}} {
		d := NewScenarios(9, c.ask)
		if d.Points != c.points || d.Replicates != 16 || d.N() != 16*c.points || d.N() < c.ask || d.Seed != 9 {
			t.Errorf("asked for %d draws: got %+v, want 16 x %d", c.ask, d, c.points)
		}
	}
}

// Two replicates with means 2 and 6: mean 4, standard error sqrt(8/1/2) = 2,
// spread of 1 3 6 6 about 4: sqrt((9+1+4+4)/4).
func TestSummarizeByHand(t *testing.T) {
	const tolerance = 1e-12
	d := Scenarios{Replicates: 2, Points: 2}
	values := []float64{1, 3, 6, 6}
	s := Summarize(values, d)
	if s.Mean != 4 || math.Abs(s.StandardError-2) > tolerance || math.Abs(s.SD-math.Sqrt(4.5)) > tolerance {
		t.Errorf("got %+v, want mean 4, standard error 2, spread %g", s, math.Sqrt(4.5))
	}
	// shares over 2 of the replicates: 1/2 and 1
	chance, standard := Chance(values, d, func(x float64) bool { return x > 2 })
	if chance != 0.75 || math.Abs(standard-0.25) > tolerance {
		t.Errorf("chance above 2: got %g with standard error %g, want 0.75 with 0.25", chance, standard)
	}
	if got := Share(values, func(x float64) bool { return x > 2 }); got != 0.75 {
		t.Errorf("share above 2: got %g, want 0.75", got)
	}
}

// Percentile errors come from the replicates' own percentiles: medians 2 and
// 6 of two replicates, sqrt(8/1/2) = 2.
func TestPercentileErrorsByHand(t *testing.T) {
	d := Scenarios{Replicates: 2, Points: 3}
	pooled, errors := PercentilesWithErrors([]float64{1, 2, 9, 5, 6, 7}, d)
	if math.Abs(errors[3]-2) > 1e-12 || pooled[3] != 5.5 {
		t.Errorf("median %v with error %v, want 5.5 with 2", pooled[3], errors[3])
	}
}

func TestEqualValuesHaveExactlyTheirMean(t *testing.T) {
	d := NewScenarios(1, DefaultScenarios)
	values := make([]float64, d.N())
	for i := range values {
		values[i] = 44.41
	}
	if s := Summarize(values, d); s != (Summary{Mean: 44.41}) {
		t.Errorf("%d times 44.41: %+v", d.N(), s)
	}
}

func TestSummarizeRefusesAnotherNumberOfDraws(t *testing.T) {
	defer func() {
		if recover() == nil {
			t.Error("three values for 256 draws are accepted")
		}
	}()
	Summarize([]float64{1, 2, 3}, NewScenarios(1, 256))
}

// Type 7 of 0, 10, ..., 90: place 9p, so the 5th percentile is 4.5 and the 95th
// 85.5. The input keeps its order.
func TestPercentilesByHand(t *testing.T) {
	values := []float64{90, 0, 10, 80, 20, 70, 30, 60, 40, 50}
	want := Percentiles{4.5, 9, 22.5, 45, 67.5, 81, 85.5}
	got := PercentilesOf(values)
	for i := range want {
		if math.Abs(got[i]-want[i]) > 1e-12 {
			t.Errorf("percentile %d: got %g, want %g", Percents[i], got[i], want[i])
		}
	}
	if values[0] != 90 || values[9] != 50 {
		t.Errorf("the values were sorted in place: %v", values)
	}
	if one := PercentilesOf([]float64{7}); one != (Percentiles{7, 7, 7, 7, 7, 7, 7}) {
		t.Errorf("percentiles of one value 7: %v", one)
	}
	if none := PercentilesOf(nil); !math.IsNaN(none[3]) {
		t.Errorf("percentiles of nothing: %v", none)
	}
}

// Mean and standard deviation agree with gonum's.
func TestSummaryAgainstGonum(t *testing.T) {
	const tolerance = 1e-12 // relative
	d := NewScenarios(5, 1024)
	values := newSampler(t, d).PriceShock("corn")
	shifted := make([]float64, len(values))
	for i, z := range values {
		shifted[i] = 100 + 7*z
	}
	s := Summarize(shifted, d)
	if mean, sd := stat.PopMeanStdDev(shifted, nil); math.Abs(s.Mean/mean-1) > tolerance || math.Abs(s.SD/sd-1) > tolerance {
		t.Errorf("got %+v, gonum mean %g and spread %g", s, mean, sd)
	}
}

// Of the values 0 to 100 the percentile p is p, so the cases are 1, 3, ..., 99.
func TestCasesOf(t *testing.T) {
	var values []float64
	for i := 100; i >= 0; i-- {
		values = append(values, float64(i))
	}
	all := CasesOf(values)
	for i, x := range all {
		if x != float64(2*i+1) {
			t.Errorf("case %d is %v, want %d", i, x, 2*i+1)
		}
	}
	if len(all) != cases || values[0] != 100 || CasesOf(nil) != nil {
		t.Errorf("%d cases, first value %v, of none %v", len(all), values[0], CasesOf(nil))
	}
}
