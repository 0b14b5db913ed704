package answer

import (
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// operation returns the choices with the highest average after limits, over all
// farms together, and how good they are known to be (choosing.go); and what each line
// moves after limits.
func (r *run) operation(farms []farmRun) (OperationPart, []limitReached, map[line]afterLimit) {
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
		return part, nil, nil
	}
	m := r.moneyOf(farms)
	best := chosen{picks: picks, exact: true} // where the law pays the higher of both
	simplest := best
	if !paysHigherOf(r.cropYear) {
		best, simplest = m.wholeOperation(picks)
	}
	picks = r.tryIndividual(&m, farms, best.picks)
	for _, k := range picks {
		part.HighestMean[k.farm][k.commodity] = k.program
	}
	mean := 0.0
	for _, k := range picks {
		mean += m.mean(m.totals[k])
	}
	reached := m.reached(picks)
	part.Mean, part.MeanAfterLimit = dollars(mean), dollars(reached.total)
	part.tellBound(m, picks, reached, best, simplest)
	paid, release := m.paidTo(picks)
	defer release()
	part.ByPerson = m.byPerson(reached, paid, lastFirstDay(picks, r.cropYear))
	t, done := r.severalOperations(m).turning(picks, best.free)
	defer done()
	t.tellAcross(&part, t.reached)
	if r.tell != nil {
		own, done := m.allEarned(picks)
		r.tell(r.cropYear, earnedSums(own))
		done()
	}
	return part, m.limitsReached(picks, reached), r.afterLimits(t, farms, picks)
}

// paidTo is what each recipient is paid in each draw under some picks, after limits
// and sequestration. Give the series back with release.
func (m purse) paidTo(picks []pick) (paid [][]crop.Money, release func()) {
	for range m.attribution.Recipients {
		paid = append(paid, m.buffers.take())
	}
	m.follow(m.earning(picks), paid)
	return paid, func() { m.buffers.give(paid...) }
}

// lastFirstDay is the day from which all commodities of some picks can be paid,
// zero where the law has none for them.
func lastFirstDay(picks []pick, y crop.CropYear) (last time.Time) {
	for _, k := range picks {
		if day, known := firstPaymentDay(k.commodity, y); known && day.After(last) {
			last = day
		}
	}
	return last
}

// mean is the average of payments, USD.
func (m purse) mean(all payments) (sum crop.Money) {
	for _, p := range all {
		sum += p.share * p.mean(m.buffers)
	}
	return sum
}

// limitBinds reports whether some choice goes over some recipient's limit in
// some outcome: then the choice of one farm depends on the others.
func (m purse) limitBinds(picks []pick) bool {
	highest := slices.Clone(picks)
	for i, k := range picks {
		if m.mostOf(turned(k)) > m.mostOf(k) {
			highest[i] = turned(k)
		}
	}
	if m.neverLimited(highest) {
		return false
	}
	at := m.potsOf(picks)
	mine, other := make([]crop.Money, m.buffers.draws.Tile()), make([]crop.Money, m.buffers.draws.Tile())
	higher := func(e *earned, from int) {
		e.zero()
		for i, k := range picks {
			for j := range m.flows[k] {
				clear(mine)
				clear(other)
				m.flows[k][j].add(mine, from)
				m.flows[turned(k)][j].add(other, from)
				for d := range mine {
					e[at[i]][j][d] += max(mine[d], other[d])
				}
			}
		}
	}
	return m.reach(higher).exceeding
}

// mostOf is the most that a pick can pay all producers in any draw.
func (m purse) mostOf(k pick) (most crop.Money) {
	for _, mine := range m.flows[k] {
		for _, p := range mine {
			most += p.share * p.most
		}
	}
	return most
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
