package answer

import (
	"slices"
	"time"

	"fencerow/program/crop"
)

// byPerson lists the producers of the file in its order, then the members of
// entities who have no entry of their own, by id. The averages add up to those
// of the operation: an entity's own lines hold what belongs to owners who are
// not listed; what it passes on stands with its owners.
//
// paid says what each is paid in each draw under the same choices; the due day is
// the first that the law allows for all commodities of the crop year.
func byPerson(m purse, r reach, paid [][]crop.Money, due time.Time) []PersonPart {
	p := m.payer
	order := slices.Clone(p.places)
	for k := range p.attribution.Recipients {
		if !slices.Contains(order, k) {
			order = append(order, k)
		}
	}
	var people []PersonPart
	for _, k := range order {
		recipient := p.attribution.Recipients[k]
		percentiles, errors := m.buffers.percentiles(paid[k])
		person := PersonPart{
			ID: recipient.ID, Mean: Dollars(r.before[k]), MeanAfterLimit: Dollars(r.after[k]),
			ChanceOfLimit: Chance(r.atLimit[k]), MeanOverLimit: Dollars(r.withheld[k] * (1 - p.sequestration.Value)), Limit: Dollars(recipient.Limit), LimitStatus: p.limit.Status,
			Percentiles: Percentiles(percentiles), PercentileErrors: Percentiles(errors),
		}
		if !due.IsZero() {
			person.PaymentNotBefore, person.TaxYear = due.Format(time.DateOnly), due.Year()
		}
		people = append(people, person)
	}
	return people
}
