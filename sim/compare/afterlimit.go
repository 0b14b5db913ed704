package compare

import (
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/parallel"
)

// afterLimits returns the differences after limits of every commodity on every farm.
func (r *YearRun) afterLimits(t *limits.Changes, farms []farmRun, elections []limits.Election) map[limits.FarmCommodity]limits.DifferenceAfterLimit {
	byFarm := make([]map[limits.FarmCommodity]limits.DifferenceAfterLimit, len(farms))
	parallel.DoUnless(r.question.Brief, len(farms), func(i int) {
		var mine []limits.Election
		for _, k := range elections {
			if k.Farm == farms[i].farm.Key() {
				mine = append(mine, k)
			}
		}
		byFarm[i] = t.Differences(farms[i].farm, mine, t.ChanceOfLimit(farms[i].farm))
	})
	all := map[limits.FarmCommodity]limits.DifferenceAfterLimit{}
	for _, lines := range byFarm {
		for at, one := range lines {
			all[at] = one
		}
	}
	return all
}

// afterLimitView is the margin for the JSON, per base acre and in total; nil where there
// is none, as where limits are hardly ever reached.
func afterLimitView(a limits.DifferenceAfterLimit, base answer.Dollars) *answer.DifferenceAfterLimit {
	if a.Margin == nil {
		return nil
	}
	return &answer.DifferenceAfterLimit{Mean: answer.Dollars(*a.Margin) / base, Total: answer.Dollars(*a.Margin), ChanceOfLimit: answer.Chance(a.Chance)}
}
