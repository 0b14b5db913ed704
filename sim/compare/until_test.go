package compare_test

import (
	"testing"

	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// Draws are doubled until the standard error of the difference is small enough;
// the answer is the one of that number of scenarios.
func TestCompareUntil(t *testing.T) {
	c := cases.Corn()
	c.Draws = 256
	const until = 0.05
	var rounds []int
	answer, worst, err := compare.AnswerUntil(c, until, 1<<20, func(draws int, _ float64) { rounds = append(rounds, draws) })
	if err != nil || worst > until || len(rounds) < 2 || rounds[0] != 256 || rounds[1] != 512 {
		t.Fatalf("rounds %v, standard error %v, %v", rounds, worst, err)
	}
	if got := float64(answer.CropYears[0].Farms[0].Commodities[0].Difference.StandardError); got != worst {
		t.Errorf("the answer's standard error is %v, said %v", got, worst)
	}
	c.Draws = rounds[len(rounds)-1]
	if invented.AsJSON(t, ask(t, c)) != invented.AsJSON(t, answer) {
		t.Error("the answer is not that of the same number of draws asked for directly")
	}
	c.Draws = 256
	if answer, worst, err := compare.AnswerUntil(c, 0, 1024, func(int, float64) {}); err != nil || answer.Draws != 1024 || worst == 0 {
		t.Errorf("bounded: %d draws, standard error %v, %v", answer.Draws, worst, err)
	}
}
