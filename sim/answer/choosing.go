package answer

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
)

// mostEnumerated is the number of farm and commodity pairs up to which every choice
// of an operation is tried; up to mostPruned, every choice that no cut rules out.
const (
	mostEnumerated = 8
	mostPruned     = 12
)

// mostSame is the number of commodities up to which every choice with one program for
// each commodity is tried.
const mostSame = 10

// gain is the least an average must rise, USD, for a choice to be changed.
const gain crop.Money = 0.005

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
	l, release := m.newLedger(start, groups)
	defer release()
	if len(groups) <= most {
		return l.enumerate(make([]float64, len(groups)), nil)
	}
	return l.search(known)
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
			if rise > gain {
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

// enumerate tries every choice that some cut does not rule out, from one that is
// known to be good.
func (l *ledger) enumerate(best []float64, cuts []cut) chosen {
	l.set(best)
	bestMean := l.score()
	highest, rounding := bestMean, l.rounding()
	x := make([]float64, len(l.levers))
	for mask := range 1 << len(x) {
		for k := range x {
			x[k] = float64(mask >> k & 1)
		}
		if slices.ContainsFunc(cuts, func(c cut) bool { return c.at(x)+rounding <= highest }) {
			continue
		}
		l.set(x)
		mean := l.score()
		if mean > bestMean+gain {
			best, bestMean = slices.Clone(x), mean
		}
		highest = max(highest, mean)
	}
	l.set(best)
	l.holdToStart(bestMean)
	return chosen{picks: l.picks(), bound: highest, exact: true}
}

// search is for operations too large to try every choice. It climbs over shares of
// programs, which bounds every choice, and improves whole choices: each pair by
// itself, the shares rounded, and those known.
func (l *ledger) search(known [][]pick) chosen {
	begin := slices.Clone(l.pushed)
	shares, lowest, cuts := l.uphill()
	starts := [][]float64{begin, rounded(shares)}
	for _, picks := range known {
		starts = append(starts, l.turnedIn(picks))
	}
	best, bestMean := begin, 0.0
	for i, from := range starts {
		l.set(from)
		if mean := l.improve(); i == 0 || mean > bestMean+gain {
			best, bestMean = slices.Clone(l.pushed), mean
		}
	}
	if len(l.levers) <= mostPruned {
		return l.enumerate(best, cuts)
	}
	l.set(best)
	bestMean = l.holdToStart(bestMean)
	return chosen{picks: l.picks(), bound: max(bestMean, lowest.top()+l.rounding())}
}

// rounding is what rounding to the cent may add to an average, USD: cents are rounded
// in each draw for each recipient, and not in the cuts. A cent for each covers that,
// and the noise of long sums.
func (l *ledger) rounding() crop.Money { return cent * float64(len(l.attribution.Recipients)) }

const cent crop.Money = 0.01

func rounded(x []float64) []float64 {
	whole := make([]float64, len(x))
	for k, share := range x {
		whole[k] = program.Round(share, 0)
	}
	return whole
}

// turnedIn says which levers are turned in some picks.
func (l *ledger) turnedIn(picks []pick) []float64 {
	x := make([]float64, len(l.levers))
	for k, group := range l.groups {
		if picks[group[0]] != l.start[group[0]] {
			x[k] = 1
		}
	}
	return x
}
