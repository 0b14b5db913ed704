package answer

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/elect"
)

// mostEnumerated is the number of farm and commodity pairs up to which every choice
// of an operation is tried.
const mostEnumerated = 8

// mostSame is the number of commodities up to which every choice with one program for
// each commodity is tried.
const mostSame = 10

// chosen is the choice of a whole operation and how good it is known to be.
type chosen struct {
	picks []pick
	bound crop.Money // no choice averages more after limits, USD
	exact bool       // every choice was looked at, or none had to be
	free  bool       // no choice of PLC and ARC-CO goes over a limit in any outcome
}

// wholeOperation returns the best choice of an operation, and of those with one
// program for each commodity the best. Among equals the start wins, which holds to
// the choice on record, then PLC.
func (m purse) wholeOperation(start []pick) (best, simplest chosen) {
	same, groups := byCommodity(start)
	oneEach := len(groups) == len(start) // every choice is as simple
	if !m.limitBinds(start) {
		best = m.chooseUnlimited(start, eachAlone(start))
		if oneEach {
			return best, best
		}
		return best, m.chooseUnlimited(same, groups)
	}
	ready, release := m.workedOut()
	defer release()
	if oneEach {
		best = ready.choose(start, groups, mostEnumerated)
		return best, best
	}
	simplest = ready.choose(same, groups, mostSame)
	return ready.choose(start, eachAlone(start), mostEnumerated, simplest.picks), simplest
}

// choose returns the best of the choices in which each group of picks is turned
// together or not at all; up to most groups every one is tried. Other choices that
// are known may be given. The purse must be worked out.
func (m purse) choose(start []pick, groups [][]int, most int, known ...[]pick) chosen {
	o, release := m.electing(start, groups)
	defer release()
	var flipped [][]bool
	for _, picks := range known {
		flipped = append(flipped, flippedIn(picks, start, groups))
	}
	best := o.Best(most, flipped...)
	picks := slices.Clone(start)
	for k, group := range groups {
		for _, i := range group {
			if best.Flipped[k] {
				picks[i] = turned(picks[i])
			}
		}
	}
	return chosen{picks: picks, bound: best.Bound, exact: best.Exact}
}

// flippedIn says which groups of the start are turned in some picks.
func flippedIn(picks, start []pick, groups [][]int) []bool {
	flipped := make([]bool, len(groups))
	for k, group := range groups {
		flipped[k] = picks[group[0]] != start[group[0]]
	}
	return flipped
}

// chooseUnlimited turns each group that brings more to people by itself: where no
// choice goes over a limit, none depends on another. The averages of whole farms can
// lead elsewhere where a share goes to nobody in the file, or to who is barred.
func (m purse) chooseUnlimited(start []pick, groups [][]int) chosen {
	picks := slices.Clone(start)
	worth := m.worthOfProducers(m.attribution)
	for _, group := range groups {
		rise := 0.0
		for _, i := range group {
			rise += m.brings(turned(start[i]), worth) - m.brings(start[i], worth)
		}
		for _, i := range group {
			if rise > elect.Gain {
				picks[i] = turned(start[i])
			}
		}
	}
	return chosen{picks, m.afterLimit(picks), true, true}
}

// worthOfProducers is what a first dollar earned by each producer brings to all
// recipients together, by pot, before sequestration.
func (m purse) worthOfProducers(by program.Attribution) (all [len(pots)][]crop.Share) {
	n := len(by.Recipients)
	arrived, worth := make([]crop.Money, n), make([]crop.Share, n)
	for at, pot := range pots {
		by.Worth(pot, arrived, worth)
		for _, place := range m.places {
			all[at] = append(all[at], worth[place])
		}
	}
	return all
}

// brings is what a pick brings to all recipients on average, each dollar at its
// worth, after sequestration.
func (m purse) brings(k pick, worth [len(pots)][]crop.Share) (sum crop.Money) {
	for j, mine := range m.flows[k] {
		sum += worth[m.potsOf([]pick{k})[0]][j] * m.mean(mine)
	}
	return sum * (1 - m.sequestration.Value)
}
