package answer

import (
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// mostSame is the number of commodities up to which every choice with one program for
// each commodity is tried.
const mostSame = 10

// wholeOperation returns the best choice of an operation, and the simplest: one
// program for each commodity on all farms. Where the law pays the higher of both
// there is nothing to choose.
func (m purse) wholeOperation(start []pick, higherOf bool) (best chosen, simplest SimplestPart) {
	if higherOf {
		best = chosen{start, m.afterLimit(start), true}
		return best, m.simplest(start)
	}
	same, groups := byCommodity(start)
	one := m.chooseBy(same, groups, mostSame)
	best = m.choose(start, one.picks)
	return best, m.simplest(one.picks)
}

// simplest describes picks that are the same on all farms.
func (m purse) simplest(picks []pick) SimplestPart {
	part := SimplestPart{Choice: Choice{}, MeanAfterLimit: Dollars(m.afterLimit(picks))}
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

// tellBound notes how good the choice is known to be, and what the limit costs.
func (o *OperationPart) tellBound(best chosen, cost crop.Money) {
	mean := crop.Money(*o.MeanAfterLimit)
	gap := max(0, best.bound-mean)
	if best.exact {
		gap = 0
	}
	o.Bound, o.Gap, o.Exact, o.CostOfLimit = dollars(best.bound), dollars(gap), best.exact, dollars(cost)
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
