package answer

import "slices"

// byPerson lists the producers of the file in its order, then the members of
// entities who have no entry of their own, by id. The averages add up to those
// of the operation: an entity's own lines hold what belongs to owners who are
// not listed; what it passes on stands with its owners.
func (p payer) byPerson(r reach) []PersonPart {
	order := slices.Clone(p.places)
	for k := range p.attribution.Recipients {
		if !slices.Contains(order, k) {
			order = append(order, k)
		}
	}
	var people []PersonPart
	for _, k := range order {
		recipient := p.attribution.Recipients[k]
		people = append(people, PersonPart{
			ID: recipient.ID, Mean: Dollars(r.before[k]), MeanAfterLimit: Dollars(r.after[k]),
			ChanceOfLimit: Chance(r.atLimit[k]), MeanOverLimit: Dollars(r.withheld[k]), Limit: Dollars(recipient.Limit),
		})
	}
	return people
}
