package answer

import (
	"time"

	"fencerow/program/crop"
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
	tellBound(&part, m, picks, reached, best, simplest)
	paid, release := m.paidTo(picks)
	defer release()
	part.ByPerson = byPerson(m, reached, paid, lastFirstDay(picks, r.cropYear))
	t, done := r.severalOperations(m).turning(picks, best.free)
	defer done()
	tellAcross(t.purse, &part, t.reached)
	if r.tell != nil {
		own, done := m.allEarned(picks)
		r.tell(r.cropYear, earnedSums(own))
		done()
	}
	return part, m.limitsReached(picks, reached), r.afterLimits(t, farms, picks)
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
