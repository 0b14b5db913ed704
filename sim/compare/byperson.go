package compare

import (
	"slices"
	"time"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/limits"
)

// paidPeople is what some elections pay people.
type paidPeople struct {
	payments  limits.Payments
	elections []limits.Election
	means     limits.RecipientMeans
	together  *answer.Percentiles // of all people together
	parts     []answer.PersonPart
}

// paidPeople returns what some elections pay people, worked out once: as last elected, as
// each line leans and the choice of the operation are often the same elections. The parts
// are a copy.
func (r *YearRun) paidPeople(m limits.Payments, elections []limits.Election) paidPeople {
	at := slices.IndexFunc(r.people, func(p paidPeople) bool { return p.payments.Same(m) && slices.Equal(p.elections, elections) })
	if at < 0 {
		means, paid, release := m.PaidByScenario(elections)
		defer release()
		parts := byPerson(m, means, paid, lastFirstDay(elections, r.Year.CropYear))
		at, r.people = len(r.people), append(r.people, paidPeople{m, elections, means, r.percentilesTogether(paid), parts})
	}
	people := r.people[at]
	people.parts = slices.Clone(people.parts)
	return people
}

// byPerson lists the producers in the order of the file, then members of entities who
// have no entry of their own, by id. Their means add up to those of the operation: what
// an entity passes on stands with its owners, and its own entry holds only what belongs
// to owners who are not listed.
//
// paid is USD by recipient and scenario, under the same elections. due is the first day
// on which all commodities of the crop year can be paid; zero: not known.
func byPerson(m limits.Payments, r limits.RecipientMeans, paid [][]crop.Money, due time.Time) []answer.PersonPart {
	p := m.Rules
	order := slices.Clone(p.Places)
	for k := range p.Attribution.Recipients {
		if !slices.Contains(order, k) {
			order = append(order, k)
		}
	}
	var people []answer.PersonPart
	for _, k := range order {
		recipient := p.Attribution.Recipients[k]
		percentiles, errors := m.Buffers.Percentiles(paid[k])
		person := answer.PersonPart{
			ID: recipient.ID, Mean: answer.Dollars(r.Attributed[k]), MeanAfterLimit: answer.Dollars(r.Paid[k]),
			ChanceOfLimit: answer.Chance(r.AtLimit[k]), MeanOverLimit: answer.Dollars(r.Withheld[k] * (1 - p.Sequestration.Value)), Limit: answer.Dollars(recipient.Limit), LimitStatus: p.Limit.Status,
			Percentiles: answer.Percentiles(percentiles), PercentileErrors: answer.Percentiles(errors),
		}
		person.WithheldSequestration, person.WithheldLimit = withheld(r.Attributed[k], r.Paid[k], p.Sequestration.Value)
		if !due.IsZero() {
			person.PaymentNotBefore, person.TaxYear = due.Format(time.DateOnly), due.Year()
		}
		people = append(people, person)
	}
	return people
}

// averagesByPerson lists what each recipient is paid on average, and nothing else of them,
// in the order of the rules.
func averagesByPerson(m limits.Payments, means limits.RecipientMeans) (people []answer.PersonPart) {
	for k, paid := range means.Paid {
		people = append(people, answer.PersonPart{ID: m.Attribution.Recipients[k].ID, MeanAfterLimit: answer.Dollars(paid)})
	}
	return people
}

// withheld returns what sequestration and limits keep of what is earned, USD on average:
// sequestration of all of it, and what is then not paid. Half a cent or less is the
// rounding of payments.
func withheld(earned, paid crop.Money, sequestration crop.Share) (bySequestration, byLimit answer.Dollars) {
	limit := earned*(1-sequestration) - paid
	if limit <= 0.005 {
		limit = 0
	}
	return answer.Dollars(earned - paid - limit), answer.Dollars(limit)
}
