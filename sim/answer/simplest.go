package answer

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// simplestPart describes picks that are the same on all farms and what they are paid.
func simplestPart(picks []pick, mean crop.Money) *SimplestPart {
	part := &SimplestPart{Choice: Choice{}, MeanAfterLimit: Dollars(mean)}
	for _, k := range picks {
		part.Choice[k.commodity] = k.program
	}
	return part
}

// byCommodity groups the picks by commodity, in the agency's order, and returns
// them all under PLC.
func byCommodity(picks []pick) (start []pick, groups [][]int) {
	places := map[crop.Commodity][]int{}
	for i, k := range picks {
		k.program = farm.PLC
		start, places[k.commodity] = append(start, k), append(places[k.commodity], i)
	}
	for _, c := range crop.Commodities() {
		if len(places[c]) > 0 {
			groups = append(groups, places[c])
		}
	}
	return start, groups
}

// tellBound notes how good the choice is known to be, what the limit costs, and the
// simplest choice beside it.
func tellBound(o *OperationPart, m purse, picks []pick, reached reach, best, simplest chosen) {
	bound, plain := best.bound, reached.total
	if best.exact && slices.Equal(picks, best.picks) {
		bound = reached.total // but for half a cent
	}
	if !slices.Equal(picks, simplest.picks) {
		plain = m.afterLimit(simplest.picks)
	}
	gap := 0.0
	if !best.exact { // with ARC-IC a choice may average more than the bound of the others
		gap = max(0, bound-reached.total)
	}
	o.Bound, o.Gap, o.Exact = dollars(bound), dollars(gap), best.exact
	o.CostOfLimit, o.Simplest = dollars(m.costOfLimit(picks, reached)), simplestPart(simplest.picks, plain)
}

// costOfLimit is what picks would bring to all recipients without any payment limit
// less what they bring, after sequestration. Who is barred for income stays so.
func (m purse) costOfLimit(picks []pick, reached reach) crop.Money {
	if !reached.exceeding {
		return 0
	}
	worth, free := m.worthOfProducers(m.attribution.WithoutLimit()), 0.0
	for _, k := range picks {
		free += m.brings(k, worth)
	}
	return max(0, free-reached.total)
}
