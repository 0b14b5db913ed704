package scenario

import (
	"math"
	"testing"

	"fencerow/sim/odds"
)

const fewDraws = 256 // 16 replicates of 16 points, the fewest there are

func fewBuffers() *Buffers { return &Buffers{Size: odds.NewScenarios(1, fewDraws)} }

// A series that was given back is the next one handed out, and no series is handed out twice.
func TestBuffersGiveBack(t *testing.T) {
	b := fewBuffers()
	first, second := b.Acquire(), b.Acquire()
	if len(first) != fewDraws || &first[0] == &second[0] {
		t.Fatalf("%d scenarios, want %d in each of two series", len(first), fewDraws)
	}
	first[0] = 7
	b.Release(nil, first, nil)
	again := b.Zeros()
	if &again[0] != &first[0] || again[0] != 0 {
		t.Errorf("the series given back is not the one that comes, or holds %v", again[0])
	}
	if next := b.Acquire(); &next[0] == &first[0] || &next[0] == &second[0] {
		t.Error("a series in use is handed out again: nil was kept as one")
	}
}

// Half of the scenarios pay nothing, a quarter 10, a quarter 20, which is the most: by
// hand the mean is 7.50, one in two pays, one in four the most.
func TestSummaryByHand(t *testing.T) {
	b := fewBuffers()
	values := b.Zeros()
	for i := range values {
		values[i] = []float64{0, 0, 10, 20}[i%4]
	}
	s := b.SummaryOf(values, 20, nil)
	if s.Mean != 7.5 || s.Paying != 0.5 || s.AtMaximum != 0.25 || s.Maximum != 20 {
		t.Errorf("mean %v, paying %v, at the maximum %v of %v", s.Mean, s.Paying, s.AtMaximum, s.Maximum)
	}
	// Where each scenario has a most of its own, that counts: here all that pay are at it.
	if own := b.SummaryOf(values, 5, values); own.AtMaximum != 0.5 || own.Maximum != 20 {
		t.Errorf("with a most for each: %v at the maximum of %v, want 0.5 of 20", own.AtMaximum, own.Maximum)
	}
	twice := s.Times(2)
	if twice.Mean != 15 || twice.Maximum != 40 || twice.Paying != 0.5 || twice.SD != 2*s.SD || twice.Percentiles[len(twice.Percentiles)-1] != 40 {
		t.Errorf("twice as much: %+v", twice)
	}
}

// Where scenarios repeat 25 past years, errors are those of 25 figures: of a chance of
// one half the square root of 0.25/25, 0.1; and 1 in 25 is the furthest percentile given.
func TestFewOutcomesHaveTheirOwnErrors(t *testing.T) {
	b := fewBuffers()
	b.Distinct = 25
	if got := b.ChanceError(0.5, 0.001); math.Abs(got-0.1) > 1e-12 {
		t.Errorf("error of a chance is %v, want 0.1", got)
	}
	for percent, tells := range map[int]bool{50: true, 4: true, 96: true, 3: false, 97: false} {
		if b.Resolves(percent) != tells {
			t.Errorf("percentile %d of 25 outcomes: told %v", percent, !tells)
		}
	}
	if fewBuffers().ChanceError(0.5, 0.001) != 0.001 {
		t.Error("drawn scenarios keep their own error")
	}
}

func TestSums(t *testing.T) {
	dst := []float64{1, 2, 3, 4}
	AddScaled(dst, 10, []float64{1, 0, 1, 0})
	if got := SumOf(dst); got != 11+2+13+4 {
		t.Errorf("sum %v, want 30", got)
	}
}
