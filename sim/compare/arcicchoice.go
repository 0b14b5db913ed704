package compare

import (
	"slices"

	"fencerow/program/farm"
	"fencerow/sim/elect"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// mayElectIndividual reports whether ARC-IC may be among the choices for a farm: where it
// has figures, and is on record, or can matter and is asked for.
func (r *YearRun) mayElectIndividual(f farmRun) bool {
	if f.arcIC == nil || f.arcIC.Missing != "" {
		return false
	}
	return position.OnRecord(f.farm, farm.ARCIC) || r.question.WithARCIC && f.arcIC.CanMatter
}

// tryIndividual turns farms to ARC-IC where they may take it and the average after
// limits rises: one farm at a time, as often as that gains. Where several of one
// State are turned they are one pool, so the whole is worked out anew, and kept
// only if it still gains over the best without ARC-IC.
func (r *YearRun) tryIndividual(m *limits.Payments, farms []farmRun, elections []limits.Election) []limits.Election {
	best, bestMean := elections, m.MeanAfterLimit(elections)
	var switched []int
	for i, f := range farms {
		if !r.mayElectIndividual(f) {
			continue
		}
		trial := withIndividual(best, f.farm.Key())
		if mean := m.MeanAfterLimit(trial); mean > bestMean+elect.LeastGain {
			best, bestMean, switched = trial, mean, append(switched, i)
		}
	}
	if len(switched) < 2 {
		return best
	}
	pooled := r.pooledAnew(farms, switched)
	if mean := pooled.MeanAfterLimit(best); mean > pooled.MeanAfterLimit(elections)+elect.LeastGain {
		*m = pooled
		return best
	}
	return withIndividual(elections, farms[switched[0]].farm.Key())
}

// withIndividual returns the picks with one farm in ARC-IC.
func withIndividual(elections []limits.Election, farmKey string) []limits.Election {
	all := slices.Clone(elections)
	for i := range all {
		if all[i].Farm == farmKey {
			all[i].Program = farm.ARCIC
		}
	}
	return all
}

// pooledAnew returns the payments of farms where those switched to ARC-IC are pooled with
// each other.
func (r *YearRun) pooledAnew(farms []farmRun, switched []int) limits.Payments {
	anew := slices.Clone(farms)
	for _, i := range switched {
		pool := []*position.Individual{farms[i].individual}
		for _, k := range switched {
			if k != i && position.StateOf(farms[k].farm.County) == position.StateOf(farms[i].farm.County) && shareProducer(r.question.Operation, farms[i].farm, farms[k].farm, r.Year.CropYear) {
				pool = append(pool, farms[k].individual)
			}
		}
		anew[i].payoffs = slices.Clone(farms[i].payoffs)
		r.payIndividual(&anew[i], pool)
		anew[i].payments = r.farmPayments(anew[i])
	}
	return r.paymentsOf(anew)
}
