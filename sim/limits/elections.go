package limits

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/elect"
)

// maxEnumerated is the number of farm and commodity pairs up to which every choice
// of an operation is tried.
const maxEnumerated = 8

// maxCommodities is the number of commodities up to which every choice with one program for
// each commodity is tried.
const maxCommodities = 10

// Choice is the choice of a whole operation and how good it is known to be.
type Choice struct {
	Elections    []Election
	Bound        crop.Money // no choice averages more after limits, USD
	Exact        bool       // every choice was looked at, or none had to be
	NeverLimited bool       // no choice of PLC and ARC-CO goes over a limit in any outcome
}

// WholeOperation returns the best choice of an operation, and of those with one
// program for each commodity the best. Among equals the start wins, which holds to
// the choice on record, then PLC.
func (m Payments) WholeOperation(start []Election) (best, simplest Choice) {
	same, groups := byCommodity(start)
	oneEach := len(groups) == len(start) // every choice is as simple
	if !m.limitBinds(start) {
		best = m.chooseUnlimited(start, eachAlone(start))
		if oneEach {
			return best, best
		}
		return best, m.chooseUnlimited(same, groups)
	}
	ready, release := m.Evaluated()
	defer release()
	if oneEach {
		best = ready.choose(start, groups, maxEnumerated)
		return best, best
	}
	simplest = ready.choose(same, groups, maxCommodities)
	return ready.choose(start, eachAlone(start), maxEnumerated, simplest.Elections), simplest
}

// choose returns the best of the choices in which each group of picks is turned
// together or not at all; up to most groups every one is tried. Other choices that
// are known may be given. The purse must be worked out.
func (m Payments) choose(start []Election, groups [][]int, most int, known ...[]Election) Choice {
	o, release := m.optimization(start, groups)
	defer release()
	var flipped [][]bool
	for _, picks := range known {
		flipped = append(flipped, flippedGroups(picks, start, groups))
	}
	best := o.Best(most, flipped...)
	picks := slices.Clone(start)
	for k, group := range groups {
		for _, i := range group {
			if best.Flipped[k] {
				picks[i] = otherProgram(picks[i])
			}
		}
	}
	return Choice{Elections: picks, Bound: best.Bound, Exact: best.Exact}
}

// flippedGroups says which groups of the start are turned in some picks.
func flippedGroups(picks, start []Election, groups [][]int) []bool {
	flipped := make([]bool, len(groups))
	for k, group := range groups {
		flipped[k] = picks[group[0]] != start[group[0]]
	}
	return flipped
}

// chooseUnlimited turns each group that brings more to people by itself: where no
// choice goes over a limit, none depends on another. The averages of whole farms can
// lead elsewhere where a share goes to nobody in the file, or to who is barred.
func (m Payments) chooseUnlimited(start []Election, groups [][]int) Choice {
	picks := slices.Clone(start)
	worth := m.marginalWorth(m.Attribution)
	for _, group := range groups {
		rise := 0.0
		for _, i := range group {
			rise += m.meanPaidAtWorth(otherProgram(start[i]), worth) - m.meanPaidAtWorth(start[i], worth)
		}
		for _, i := range group {
			if rise > elect.LeastGain {
				picks[i] = otherProgram(start[i])
			}
		}
	}
	return Choice{picks, m.MeanAfterLimit(picks), true, true}
}

// marginalWorth is what a first dollar earned by each producer brings to all
// recipients together, by limit pool, before sequestration.
func (m Payments) marginalWorth(by program.Attribution) (all [len(Pools)][]crop.Share) {
	n := len(by.Recipients)
	arrived, worth := make([]crop.Money, n), make([]crop.Share, n)
	for at, pool := range Pools {
		by.Worth(pool, arrived, worth)
		for _, place := range m.Places {
			all[at] = append(all[at], worth[place])
		}
	}
	return all
}

// meanPaidAtWorth is what a pick brings to all recipients on average, each dollar at its
// worth, after sequestration.
func (m Payments) meanPaidAtWorth(k Election, worth [len(Pools)][]crop.Share) (sum crop.Money) {
	for j, mine := range m.shared[k] {
		sum += worth[m.poolsOf([]Election{k})[0]][j] * m.Mean(mine)
	}
	return sum * (1 - m.Sequestration.Value)
}

// eachAlone lists the picks as groups of one.
func eachAlone(picks []Election) (groups [][]int) {
	for i := range picks {
		groups = append(groups, []int{i})
	}
	return groups
}

// byCommodity groups the picks by commodity, in the agency's order, and returns
// them all under PLC.
func byCommodity(picks []Election) (start []Election, groups [][]int) {
	places := map[crop.Commodity][]int{}
	for i, k := range picks {
		k.Program = farm.PLC
		start, places[k.Commodity] = append(start, k), append(places[k.Commodity], i)
	}
	for _, c := range crop.Commodities() {
		if len(places[c]) > 0 {
			groups = append(groups, places[c])
		}
	}
	return start, groups
}
