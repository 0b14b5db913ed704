package compare

import (
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/parallel"
)

// afterLimits works out every line of the operation.
func (r *Run) afterLimits(t *limits.Changes, farms []farmRun, picks []limits.Election) map[limits.Line]limits.AfterLimit {
	byFarm := make([]map[limits.Line]limits.AfterLimit, len(farms))
	parallel.DoUnless(r.Brief, len(farms), func(i int) {
		var mine []limits.Election
		for _, k := range picks {
			if k.Farm == farms[i].farm.Key() {
				mine = append(mine, k)
			}
		}
		byFarm[i] = t.Lines(farms[i].farm, mine, t.Often(farms[i].farm))
	})
	all := map[limits.Line]limits.AfterLimit{}
	for _, lines := range byFarm {
		for at, one := range lines {
			all[at] = one
		}
	}
	return all
}

// afterLimitView is the margin for the JSON.
func afterLimitView(a limits.AfterLimit, base answer.Dollars) *answer.DifferenceAfterLimit {
	if a.Margin == nil {
		return nil
	}
	return &answer.DifferenceAfterLimit{Mean: answer.Dollars(*a.Margin) / base, Total: answer.Dollars(*a.Margin), ChanceOfLimit: answer.Chance(a.Chance)}
}
