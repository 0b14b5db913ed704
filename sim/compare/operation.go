package compare

import (
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
	"fencerow/sim/position"
)

// operation returns the elections of all farms with the highest mean after limits that
// is found, how far it can be from the best there is, the limits it reaches, and the
// differences after limits of every commodity.
func (r *YearRun) operation(farms []farmRun) (answer.OperationPart, []limits.LimitReached, map[limits.FarmCommodity]limits.DifferenceAfterLimit) {
	part := answer.OperationPart{
		HighestMean: map[string]answer.Choice{}, LeftOut: []string{}, ByPerson: []answer.PersonPart{},
		Sequestration: answer.Chance(r.rules.Sequestration.Value), SequestrationStatus: r.rules.Sequestration.Status,
	}
	var elections []limits.Election
	for _, f := range farms {
		choice := r.highest(f)
		part.HighestMean[f.farm.Key()] = choice
		elections = append(elections, electionsUnder(f.farm.Key(), choice)...)
		for _, base := range f.bases {
			if _, has := choice[base.Commodity]; !has {
				part.LeftOut = append(part.LeftOut, f.farm.Key()+" "+string(base.Commodity))
			}
		}
	}
	m := r.paymentsOf(farms)
	part.Under = r.under(m, farms)
	if len(elections) == 0 {
		return part, nil, nil
	}
	best := limits.Choice{Elections: elections, Exact: true} // where the law pays the higher of both
	simplest := best
	if !position.PaysHigherOf(r.Year.CropYear) {
		best, simplest = m.WholeOperation(elections)
	}
	elections = r.tryIndividual(&m, farms, best.Elections)
	for _, k := range elections {
		part.HighestMean[k.Farm][k.Commodity] = k.Program
	}
	mean := 0.0
	for _, k := range elections {
		mean += m.Mean(m.Totals[k])
	}
	reached := r.payPeople(&part, m, elections)
	part.Mean, part.MeanAfterLimit = answer.DollarsOf(mean), answer.DollarsOf(reached.Total)
	fillBound(&part, m, elections, reached, best, simplest)
	if r.earned != nil {
		own, done := m.AllEarned(elections)
		r.earned(r.Year.CropYear, own)
		done()
	}
	if r.onlyEarned() {
		return part, nil, nil
	}
	t, done := r.acrossOperations(m).Changes(elections, best.NeverLimited)
	defer done()
	fillAcross(t.Payments, &part, t.Current)
	return part, m.LimitsReached(elections, reached), r.afterLimits(t, farms, elections)
}

// payPeople fills in what people are paid under the choice of the operation and returns
// their means.
func (r *YearRun) payPeople(part *answer.OperationPart, m limits.Payments, elections []limits.Election) limits.RecipientMeans {
	if r.onlyEarned() {
		means := m.ByRecipient(elections)
		part.ByPerson = averagesByPerson(m, means)
		return means
	}
	all := r.paidPeople(m, elections)
	part.Percentiles, part.ByPerson = all.together, all.parts
	return all.means
}

// lastFirstDay returns the first day on which all commodities of some elections can be
// paid; zero where the law has none for any of them.
func lastFirstDay(elections []limits.Election, y crop.CropYear) (last time.Time) {
	for _, k := range elections {
		if day, known := FirstPaymentDay(k.Commodity, y); known && day.After(last) {
			last = day
		}
	}
	return last
}

// simplestPart describes elections that are the same on all farms. mean is USD after
// limits.
func simplestPart(elections []limits.Election, mean crop.Money) *answer.SimplestPart {
	part := &answer.SimplestPart{Choice: answer.Choice{}, MeanAfterLimit: answer.Dollars(mean)}
	for _, k := range elections {
		part.Choice[k.Commodity] = k.Program
	}
	return part
}

// fillBound fills in the upper bound and the gap to it, what the limit costs, and the
// simplest choice.
func fillBound(o *answer.OperationPart, m limits.Payments, elections []limits.Election, reached limits.RecipientMeans, best, simplest limits.Choice) {
	bound, plain := best.Bound, reached.Total
	if best.Exact && slices.Equal(elections, best.Elections) {
		bound = reached.Total // no choice averages half a cent more
	}
	if !slices.Equal(elections, simplest.Elections) {
		plain = m.MeanAfterLimit(simplest.Elections)
	}
	gap := 0.0
	if !best.Exact { // with ARC-IC a choice may average more than the bound of the others
		gap = max(0, bound-reached.Total)
	}
	o.Bound, o.Gap, o.Exact = answer.DollarsOf(bound), answer.DollarsOf(gap), best.Exact
	o.CostOfLimit, o.Simplest = answer.DollarsOf(m.CostOfLimit(elections, reached)), simplestPart(simplest.Elections, plain)
}
