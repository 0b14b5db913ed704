package compare

import (
	"slices"

	"fencerow/program/farm"
	"fencerow/sim/elect"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// mayElectIndividual reports whether ARC-IC may be among the choices for a farm: it has
// figures, and either is on record, or can matter and is asked for.
func (r *YearRun) mayElectIndividual(f farmRun) bool {
	if f.arcIC == nil || f.arcIC.Missing != "" {
		return false
	}
	return position.OnRecord(f.farm, farm.ARCIC) || r.question.WithARCIC && f.arcIC.CanMatter
}

// tryIndividual returns the elections with farms switched to ARC-IC, one after the
// other, where that raises the mean after limits. Several switched farms of one State
// are one pool, which changes what each is paid: then all is worked out again, m
// replaced, and the switch kept only if it still gains; else the first farm alone is
// switched.
func (r *YearRun) tryIndividual(m *limits.Payments, farms []farmRun, elections []limits.Election) []limits.Election {
	if !slices.ContainsFunc(farms, r.mayElectIndividual) {
		return elections
	}
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

// withIndividual returns the elections with ARC-IC on one farm.
func withIndividual(elections []limits.Election, farmKey string) []limits.Election {
	all := slices.Clone(elections)
	for i := range all {
		if all[i].Farm == farmKey {
			all[i].Program = farm.ARCIC
		}
	}
	return all
}

// pooledAnew returns the payments of the farms where the switched ones are pooled with
// each other alone.
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
