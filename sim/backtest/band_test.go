package backtest_test

import (
	"fmt"
	"os"
	"testing"

	"fencerow/io/read/market"
	"fencerow/sim/backtest"
)

// How far the band moves the price: candidates on counties of 20,000 base acres and more.
// All move the county yield by its estimators. Under the program's own rule a clear
// leader is right at least 15 in 100 oftener than a toss-up leans right, in May and in
// November. The other candidates take minutes: FENCEROW_CANDIDATES=1 asks for them.
func TestBandCandidates(t *testing.T) {
	const apart = 0.15
	past := tablesOfThePast(t)
	for _, candidate := range []struct {
		name string
		move func(sd float64) float64
	}{
		{"own rule", nil},
		{"one forecast error", func(sd float64) float64 { return sd }},
		{"half of it", func(sd float64) float64 { return sd / 2 }},
		{"5 percent", func(float64) float64 { return 0.05 }},
		{"not at all", func(float64) float64 { return 0 }},
	} {
		if candidate.move != nil && os.Getenv("FENCEROW_CANDIDATES") == "" {
			continue
		}
		s, err := ofCounties(past, muchBase)
		if candidate.move != nil {
			s, err = backtest.Run(backtest.Setup{Past: past, Market: market.Builtin(), Draws: 1024, Seed: 1, LeastBase: muchBase}.MovingPrice(candidate.move), func(int, int) {})
		}
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range s.Decisions {
			if d.Commodity != "all" {
				continue
			}
			row, right := fmt.Sprintf("| price moved by %s | %s |", candidate.name, d.KnownFrom), map[string]float64{}
			for _, l := range d.Leaders {
				if l.Kind != "little_chance" && l.Right != nil {
					row += fmt.Sprintf(" %s %.0f, right %.0f, given away $%.2f |", l.Kind, 100*l.Share, 100**l.Right, l.GivenAway)
					right[l.Kind] = float64(*l.Right)
				}
			}
			fmt.Println(row)
			if candidate.move == nil && right["clear"] < right["close"]+apart {
				t.Errorf("%s: clear leaders right in %.2f, toss-ups in %.2f", d.KnownFrom, right["clear"], right["close"])
			}
		}
	}
}
