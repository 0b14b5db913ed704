package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// mostEnumerated is the number of farm and commodity pairs up to which every
// choice of an operation is tried where the payment limit binds.
const mostEnumerated = 8

// operation returns the choices with the highest average after limits, over all
// farms together. Where no outcome reaches a limit, that is the higher average
// of each farm and commodity by itself; else every choice is tried, or, beyond
// mostEnumerated pairs, one pair at a time is turned as long as that gains.
func (r *run) operation(farms []farmRun) (OperationPart, []limitReached) {
	part := OperationPart{HighestMean: map[string]Choice{}, LeftOut: []string{}, ByPerson: []PersonPart{}}
	var picks []pick
	for _, f := range farms {
		choice := r.highest(f)
		part.HighestMean[f.farm.Key()] = choice
		picks = append(picks, picksOf(f.farm.Key(), choice)...)
		for _, h := range f.holdings {
			if _, has := choice[h.commodity]; !has {
				part.LeftOut = append(part.LeftOut, f.farm.Key()+" "+string(h.commodity))
			}
		}
	}
	if len(picks) == 0 {
		return part, nil
	}
	m := r.moneyOf(farms)
	if !paysHigherOf(r.cropYear) && m.limitBinds(picks) {
		picks = m.searchLimited(picks)
	}
	picks = r.tryIndividual(&m, farms, picks)
	for _, k := range picks {
		part.HighestMean[k.farm][k.commodity] = k.program
	}
	mean := 0.0
	for _, k := range picks {
		mean += odds.Mean(m.totals[k])
	}
	reached := m.reached(picks)
	part.Mean, part.MeanAfterLimit = dollars(mean), dollars(reached.total)
	part.ByPerson = m.byPerson(reached)
	return part, m.limitsReached(picks, reached)
}

// limitBinds reports whether some choice goes over some recipient's limit in
// some outcome: then the choice of one farm depends on the others.
func (m purse) limitBinds(picks []pick) bool {
	most := received{}
	defer most.release(m.buffers)
	for _, k := range picks {
		higher := make(flow, len(m.producers))
		for j, mine := range m.flows[k] {
			other := m.flows[turned(k)][j]
			higher[j] = m.buffers.take()
			for i := range mine {
				higher[j][i] = max(mine[i], other[i])
			}
		}
		most.add(m.buffers, m.pot(k.commodity), higher)
		m.buffers.give(higher...)
	}
	return m.reach(most).exceeding
}

// turned is the same farm and commodity under the other program.
func turned(k pick) pick {
	if k.program == farm.PLC {
		k.program = farm.ARCCO
	} else {
		k.program = farm.PLC
	}
	return k
}

// searchLimited returns the picks with the highest average after limits; among
// equals the start wins, which holds to the choice on record, then PLC.
func (m purse) searchLimited(start []pick) []pick {
	best, bestMean := append([]pick(nil), start...), m.afterLimit(start)
	try := func(picks []pick) {
		if mean := m.afterLimit(picks); mean > bestMean+gain {
			best, bestMean = append([]pick(nil), picks...), mean
		}
	}
	if len(start) <= mostEnumerated {
		for mask := 1; mask < 1<<len(start); mask++ {
			picks := append([]pick(nil), start...)
			for b := range picks {
				if mask>>b&1 == 1 {
					picks[b] = turned(picks[b])
				}
			}
			try(picks)
		}
		return best
	}
	return m.climb(best, bestMean)
}

// climb turns one pair at a time as long as that gains.
func (m purse) climb(best []pick, bestMean crop.Money) []pick {
	earned := m.earned(best)
	defer earned.release(m.buffers)
	for before := -1.0; before < bestMean; {
		before = bestMean
		for b, now := range best {
			other := turned(now)
			earned.swap(m.pot(now.commodity), m.flows[now], m.flows[other])
			if mean := m.reach(earned).total; mean > bestMean+gain {
				best[b], bestMean = other, mean
				continue
			}
			earned.swap(m.pot(now.commodity), m.flows[other], m.flows[now])
		}
	}
	return best
}

// gain is the least an average must rise, USD, for a choice to be changed.
const gain crop.Money = 0.005
