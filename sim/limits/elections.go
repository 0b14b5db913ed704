package limits

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/elect"
)

const (
	maxEnumerated  = 8  // commodity bases up to which every choice of an operation is tried
	maxCommodities = 10 // commodities up to which every choice of one program for each is tried
	maxEvaluated   = 64 // commodity bases up to which the search keeps what each is paid to the cent
)

// Choice is one set of elections for a whole operation and what is known of its quality.
type Choice struct {
	Elections    []Election
	Bound        crop.Money // upper bound on the mean of every choice that was open, USD after limits
	Exact        bool       // none of them has a higher mean: all were tried, or each base could be decided by itself
	NeverLimited bool       // no choice of PLC and ARC-CO exceeds a limit in any scenario
}

// WholeOperation returns the choice of PLC and ARC-CO with the highest mean after limits,
// and the one with the highest mean among those with one program for each commodity.
// Where an election gains no more than elect.LeastGain, best keeps that of start and
// simplest keeps PLC.
func (m Payments) WholeOperation(start []Election) (best, simplest Choice) {
	allPLC, groups := byCommodity(start)
	oneBaseEach := len(groups) == len(start) // then every choice has one program for each commodity
	if !m.limitBinds(start) {
		best = m.chooseUnlimited(start, eachAlone(start))
		if oneBaseEach {
			return best, best
		}
		return best, m.chooseUnlimited(allPLC, groups)
	}
	ready := m
	if len(start) <= maxEvaluated {
		evaluated, release := m.Evaluated()
		defer release()
		ready = evaluated
	}
	if oneBaseEach {
		best = ready.choose(start, groups, maxEnumerated)
		return best, best
	}
	simplest = ready.choose(allPLC, groups, maxCommodities)
	return ready.choose(start, eachAlone(start), maxEnumerated, simplest.Elections), simplest
}

// choose returns the best of the choices that flip each group of elections as one or
// leave it as in start. Up to maxTried groups every choice is tried; beyond that the
// search of package elect begins at start and at every known choice. Where payments are not
// Evaluated it goes by rates times acres without the rounding of each base to the cent, and
// the bound covers that.
func (m Payments) choose(start []Election, groups [][]int, maxTried int, known ...[]Election) Choice {
	o, release := m.optimization(start, groups)
	defer release()
	var knownFlips [][]bool
	for _, elections := range known {
		knownFlips = append(knownFlips, flippedGroups(elections, start, groups))
	}
	best := o.Best(maxTried, knownFlips...)
	elections := slices.Clone(start)
	for k, group := range groups {
		for _, i := range group {
			if best.Flipped[k] {
				elections[i] = otherProgram(elections[i])
			}
		}
	}
	return Choice{Elections: elections, Bound: best.Bound, Exact: best.Exact}
}

// flippedGroups reports, by group, whether some elections differ from start.
func flippedGroups(elections, start []Election, groups [][]int) []bool {
	flipped := make([]bool, len(groups))
	for k, group := range groups {
		flipped[k] = elections[group[0]] != start[group[0]]
	}
	return flipped
}

// chooseUnlimited decides each group by itself, which is exact where no choice exceeds a
// limit. It goes by what recipients are paid: the means of whole farms would mislead
// where a share belongs to nobody in the file, or to a recipient barred for income.
func (m Payments) chooseUnlimited(start []Election, groups [][]int) Choice {
	elections := slices.Clone(start)
	worth := m.marginalWorth(m.Attribution)
	for _, group := range groups {
		var rise crop.Money
		for _, i := range group {
			rise += m.meanPaidAtWorth(otherProgram(start[i]), worth) - m.meanPaidAtWorth(start[i], worth)
		}
		for _, i := range group {
			if rise > elect.LeastGain {
				elections[i] = otherProgram(start[i])
			}
		}
	}
	return Choice{elections, m.MeanAfterLimit(elections), true, true}
}

// marginalWorth returns what the first dollar earned by each producer adds to the
// payments of all recipients, before sequestration, as a share of it: [pool][producer].
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

// meanPaidAtWorth returns what an election adds to the payments of all recipients, USD on
// average after sequestration, each dollar earned at its marginal worth.
func (m Payments) meanPaidAtWorth(e Election, worth [len(Pools)][]crop.Share) (sum crop.Money) {
	pool := m.poolsOf([]Election{e})[0]
	for _, one := range m.shared[e] {
		sum += worth[pool][one.producer] * m.Mean(one.claims)
	}
	return sum * (1 - m.Sequestration.Value)
}

// eachAlone makes each election a group of its own.
func eachAlone(elections []Election) (groups [][]int) {
	for i := range elections {
		groups = append(groups, []int{i})
	}
	return groups
}

// byCommodity groups elections by commodity, in the order of crop.Commodities, and
// returns all of them under PLC.
func byCommodity(elections []Election) (allPLC []Election, groups [][]int) {
	places := map[crop.Commodity][]int{}
	for i, e := range elections {
		e.Program = farm.PLC
		allPLC, places[e.Commodity] = append(allPLC, e), append(places[e.Commodity], i)
	}
	for _, c := range crop.Commodities() {
		if len(places[c]) > 0 {
			groups = append(groups, places[c])
		}
	}
	return allPLC, groups
}
