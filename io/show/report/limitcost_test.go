package report

import (
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// The sentence stands only where a limit costs something, and says how near the
// choice comes to the highest.
func TestLimitCost(t *testing.T) {
	usd := func(x float64) *answer.Dollars { d := answer.Dollars(x); return &d }
	part := func(cost, gap, gives float64, exact bool, program farm.Program) answer.OperationPart {
		return answer.OperationPart{
			HighestMean: map[string]answer.Choice{"99001-0417": {crop.Corn: program}}, MeanAfterLimit: usd(100_000),
			Bound: usd(100_000 + gap), Gap: usd(gap), Exact: exact, CostOfLimit: usd(cost),
			Simplest: &answer.SimplestPart{Choice: answer.Choice{crop.Corn: farm.PLC}, MeanAfterLimit: answer.Dollars(100_000 - gives)},
		}
	}
	const costs = "The payment limit costs $2,500 on average, after sequestration. "
	for name, one := range map[string]struct {
		part answer.OperationPart
		want string
	}{
		"no limit reached": {part(0, 0, 0, true, farm.PLC), ""},
		"exact":            {part(2500, 0, 0, true, farm.PLC), costs + "No other mix of PLC and ARC-CO averages more. One program per crop on every farm (corn PLC) gives up less than a dollar."},
		"a small gap":      {part(2500, 0.4, 120, false, farm.PLC), costs + "No other mix of PLC and ARC-CO averages a dollar more. One program per crop on every farm (corn PLC) gives up $120."},
		"a gap":            {part(2500, 35, 120, false, farm.PLC), costs + "No other mix of PLC and ARC-CO averages over $35 more (not every one was tried). One program per crop on every farm (corn PLC) gives up $120."},
		"with ARC-IC":      {part(2500, -50, 120, true, farm.ARCIC), costs + "Without ARC-IC, no mix of programs averages more than $99,950. One program per crop on every farm (corn PLC) gives up $120."},
	} {
		if got := limitCost(one.part); got != one.want {
			t.Errorf("%s:\ngot  %s\nwant %s", name, got, one.want)
		}
	}
}
