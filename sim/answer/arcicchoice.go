package answer

import (
	"slices"

	"fencerow/program/farm"
	"fencerow/sim/elect"
)

// takesIndividual reports whether ARC-IC may be among the choices for a farm: where it
// has figures, and is on record, or can matter and is asked for.
func (r *run) takesIndividual(f farmRun) bool {
	if f.arcIC == nil || f.arcIC.Missing != "" {
		return false
	}
	return onRecord(f.farm, farm.ARCIC) || r.WithARCIC && f.arcIC.CanMatter
}

// tryIndividual turns farms to ARC-IC where they may take it and the average after
// limits rises: one farm at a time, as often as that gains. Where several of one
// State are turned they are one pool, so the whole is worked out anew, and kept
// only if it still gains over the best without ARC-IC.
func (r *run) tryIndividual(m *purse, farms []farmRun, picks []pick) []pick {
	best, bestMean := picks, m.afterLimit(picks)
	var switched []int
	for i, f := range farms {
		if !r.takesIndividual(f) {
			continue
		}
		trial := withIndividual(best, f.farm.Key())
		if mean := m.afterLimit(trial); mean > bestMean+elect.Gain {
			best, bestMean, switched = trial, mean, append(switched, i)
		}
	}
	if len(switched) < 2 {
		return best
	}
	pooled := r.pooledAnew(farms, switched)
	if mean := pooled.afterLimit(best); mean > pooled.afterLimit(picks)+elect.Gain {
		*m = pooled
		return best
	}
	return withIndividual(picks, farms[switched[0]].farm.Key())
}

// withIndividual returns the picks with one farm in ARC-IC.
func withIndividual(picks []pick, farmKey string) []pick {
	all := slices.Clone(picks)
	for i := range all {
		if all[i].farm == farmKey {
			all[i].program = farm.ARCIC
		}
	}
	return all
}

// pooledAnew returns the purse of farms where those turned to ARC-IC are pooled
// with each other.
func (r *run) pooledAnew(farms []farmRun, turned []int) purse {
	anew := slices.Clone(farms)
	for _, i := range turned {
		pool := []*individual{farms[i].individual}
		for _, k := range turned {
			if k != i && stateOf(farms[k].farm.County) == stateOf(farms[i].farm.County) && shareProducer(r.Operation, farms[i].farm, farms[k].farm, r.cropYear) {
				pool = append(pool, farms[k].individual)
			}
		}
		anew[i].payoffs = slices.Clone(farms[i].payoffs)
		r.payIndividual(&anew[i], pool)
		anew[i].money = r.money(anew[i])
	}
	return r.moneyOf(anew)
}
