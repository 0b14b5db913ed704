package compare

import (
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// operation returns the choices with the highest average after limits, over all
// farms together, and how good they are known to be (limits.Choice); and what each line
// moves after limits.
func (r *Run) operation(farms []farmRun) (answer.OperationPart, []limits.LimitReached, map[limits.FarmCommodity]limits.DifferenceAfterLimit) {
	part := answer.OperationPart{HighestMean: map[string]answer.Choice{}, LeftOut: []string{}, ByPerson: []answer.PersonPart{}}
	var picks []limits.Election
	for _, f := range farms {
		choice := r.highest(f)
		part.HighestMean[f.farm.Key()] = choice
		picks = append(picks, picksOf(f.farm.Key(), choice)...)
		for _, h := range f.holdings {
			if _, has := choice[h.Commodity]; !has {
				part.LeftOut = append(part.LeftOut, f.farm.Key()+" "+string(h.Commodity))
			}
		}
	}
	if len(picks) == 0 {
		return part, nil, nil
	}
	m := r.moneyOf(farms)
	best := limits.Choice{Elections: picks, Exact: true} // where the law pays the higher of both
	simplest := best
	if !position.PaysHigherOf(r.CropYear) {
		best, simplest = m.WholeOperation(picks)
	}
	picks = r.tryIndividual(&m, farms, best.Elections)
	for _, k := range picks {
		part.HighestMean[k.Farm][k.Commodity] = k.Program
	}
	mean := 0.0
	for _, k := range picks {
		mean += m.Mean(m.Totals[k])
	}
	reached := m.ByRecipient(picks)
	part.Mean, part.MeanAfterLimit = answer.DollarsOf(mean), answer.DollarsOf(reached.Total)
	tellBound(&part, m, picks, reached, best, simplest)
	paid, release := m.PaidByScenario(picks)
	defer release()
	part.ByPerson = byPerson(m, reached, paid, lastFirstDay(picks, r.CropYear))
	t, done := r.severalOperations(m).Changes(picks, best.NeverLimited)
	defer done()
	tellAcross(t.Payments, &part, t.Current)
	if r.tell != nil {
		own, done := m.AllEarned(picks)
		r.tell(r.CropYear, own)
		done()
	}
	return part, m.LimitsReached(picks, reached), r.afterLimits(t, farms, picks)
}

// lastFirstDay is the day from which all commodities of some picks can be paid,
// zero where the law has none for them.
func lastFirstDay(picks []limits.Election, y crop.CropYear) (last time.Time) {
	for _, k := range picks {
		if day, known := FirstPaymentDay(k.Commodity, y); known && day.After(last) {
			last = day
		}
	}
	return last
}

// simplestPart describes picks that are the same on all farms and what they are paid.
func simplestPart(picks []limits.Election, mean crop.Money) *answer.SimplestPart {
	part := &answer.SimplestPart{Choice: answer.Choice{}, MeanAfterLimit: answer.Dollars(mean)}
	for _, k := range picks {
		part.Choice[k.Commodity] = k.Program
	}
	return part
}

// tellBound notes how good the choice is known to be, what the limit costs, and the
// simplest choice beside it.
func tellBound(o *answer.OperationPart, m limits.Payments, picks []limits.Election, reached limits.RecipientMeans, best, simplest limits.Choice) {
	bound, plain := best.Bound, reached.Total
	if best.Exact && slices.Equal(picks, best.Elections) {
		bound = reached.Total // but for half a cent
	}
	if !slices.Equal(picks, simplest.Elections) {
		plain = m.MeanAfterLimit(simplest.Elections)
	}
	gap := 0.0
	if !best.Exact { // with ARC-IC a choice may average more than the bound of the others
		gap = max(0, bound-reached.Total)
	}
	o.Bound, o.Gap, o.Exact = answer.DollarsOf(bound), answer.DollarsOf(gap), best.Exact
	o.CostOfLimit, o.Simplest = answer.DollarsOf(m.CostOfLimit(picks, reached)), simplestPart(simplest.Elections, plain)
}
