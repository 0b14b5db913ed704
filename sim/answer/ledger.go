package answer

import (
	"slices"

	"gonum.org/v1/gonum/floats"

	"fencerow/program"
	"fencerow/program/crop"
)

// ledger keeps what every producer earns in every draw under some picks, so that a
// change of the picks costs what it changes and no more. Its levers are the changes
// there can be: each turns one or several pairs to the other program.
type ledger struct {
	purse
	start  []pick
	groups [][]int // the picks that each lever turns, by place in start
	levers []lever
	sums   earned // [pot][producer][draw], USD
	pushed []float64
}

// lever is what one turn adds to the sums.
type lever []column

// column is one series of payments and who has a part of it.
type column struct {
	series []crop.Money
	parts  []partOf
}

// partOf is a producer's part of a column; below zero for what a turn takes away.
type partOf struct {
	pot, producer int
	share         crop.Share
}

// newLedger opens the ledger of some picks of a purse that is worked out. Give its
// series back with release.
func (m purse) newLedger(start []pick, groups [][]int) (l *ledger, release func()) {
	l = &ledger{purse: m, start: start, groups: groups, pushed: make([]float64, len(groups))}
	var taken [][]crop.Money
	for pot := range l.sums {
		if !m.uses(pots[pot]) {
			continue
		}
		for range m.producers {
			l.sums[pot] = append(l.sums[pot], m.buffers.zeros())
		}
		taken = append(taken, l.sums[pot]...)
	}
	at := m.potsOf(start)
	for i, k := range start {
		for j, mine := range m.flows[k] {
			mine.add(l.sums[at[i]][j], 0)
		}
	}
	for _, group := range groups {
		if len(group) == 1 {
			l.levers = append(l.levers, m.leverOf(start[group[0]], at[group[0]]))
			continue
		}
		joint, series := m.jointLever(group, start, at)
		l.levers, taken = append(l.levers, joint), append(taken, series...)
	}
	return l, func() { m.buffers.give(taken...) }
}

// leverOf turns one pick.
func (m purse) leverOf(k pick, pot int) (turn lever) {
	for _, change := range []struct {
		flow flow
		sign float64
	}{{m.flows[k], -1}, {m.flows[turned(k)], 1}} {
		places := map[*payment]int{}
		for j, mine := range change.flow {
			for _, p := range mine {
				at, has := places[p.payment]
				if !has {
					at = len(turn)
					places[p.payment], turn = at, append(turn, column{series: p.rates})
				}
				turn[at].parts = append(turn[at].parts, partOf{pot, j, change.sign * p.share})
			}
		}
	}
	return turn
}

// jointLever turns several picks at once: one series for each producer and pot.
func (m purse) jointLever(group []int, start []pick, at []int) (turn lever, taken [][]crop.Money) {
	places := map[partOf]int{}
	for _, i := range group {
		for _, c := range m.leverOf(start[i], at[i]) {
			for _, p := range c.parts {
				key := partOf{p.pot, p.producer, 1}
				place, has := places[key]
				if !has {
					place = len(turn)
					places[key], turn = place, append(turn, column{m.buffers.zeros(), []partOf{key}})
					taken = append(taken, turn[place].series)
				}
				floats.AddScaled(turn[place].series, p.share, c.series)
			}
		}
	}
	return turn, taken
}

// push moves lever k by some amount: 1 is a whole turn, -1 takes it back.
func (l *ledger) push(k int, amount float64) {
	for _, c := range l.levers[k] {
		for _, p := range c.parts {
			floats.AddScaled(l.sums[p.pot][p.producer], amount*p.share, c.series)
		}
	}
	l.pushed[k] += amount
}

// turn turns lever k over.
func (l *ledger) turn(k int) { l.push(k, 1-2*l.pushed[k]) }

// set moves every lever to x.
func (l *ledger) set(x []float64) {
	for k := range l.levers {
		if change := x[k] - l.pushed[k]; change != 0 {
			l.push(k, change)
		}
		l.pushed[k] = x[k] // without the noise of sums
	}
}

// picks are the picks under the levers that are turned.
func (l *ledger) picks() []pick {
	all := slices.Clone(l.start)
	for k, group := range l.groups {
		for _, i := range group {
			if l.pushed[k] > 0.5 {
				all[i] = turned(all[i])
			}
		}
	}
	return all
}

// score is what all recipients are paid on average under the levers as they stand:
// to the cent in each draw, as it is paid.
func (l *ledger) score() (total crop.Money) {
	n := len(l.attribution.Recipients)
	own, arrived, ended, kept := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n)
	for d := range l.buffers.draws.N() {
		clear(kept)
		for pot, byProducer := range l.sums {
			if byProducer == nil {
				continue
			}
			l.own(own, byProducer, d)
			l.attribution.Trace(pots[pot], own, arrived, ended)
			for i, money := range ended {
				kept[i] += money
			}
		}
		for _, money := range kept {
			if money != 0 {
				total += program.AfterSequestration(money, l.sequestration.Value)
			}
		}
	}
	return total / float64(l.buffers.draws.N())
}

// own sets what each recipient earns itself in one draw.
func (l *ledger) own(dst []crop.Money, byProducer [][]crop.Money, draw int) {
	for j, at := range l.places {
		dst[at] = byProducer[j][draw]
	}
}

// slopes fills dst with what pushing each lever brings, USD on average for a whole
// turn at the pace of a first small step, and returns the average itself, both
// without rounding to the cent. The average is a concave function of how far the
// levers are pushed: a limit is a minimum, attribution goes by fixed shares. Hence
//
//	average at any x' <= average at x + sum over k of dst[k] (x'[k] - x[k])
func (l *ledger) slopes(dst []float64) (average crop.Money) {
	n := len(l.attribution.Recipients)
	own, arrived, ended, worth := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n), make([]crop.Share, n)
	var weights earned // what one more dollar earned brings
	for pot, byProducer := range l.sums {
		if byProducer == nil {
			continue
		}
		for range byProducer {
			series := l.buffers.take()
			defer l.buffers.give(series)
			weights[pot] = append(weights[pot], series)
		}
		for d := range l.buffers.draws.N() {
			l.own(own, byProducer, d)
			l.attribution.Trace(pots[pot], own, arrived, ended)
			l.attribution.Worth(pots[pot], arrived, worth)
			average += floats.Sum(ended)
			for j, at := range l.places {
				weights[pot][j][d] = worth[at]
			}
		}
	}
	net := (1 - l.sequestration.Value) / float64(l.buffers.draws.N())
	inParallel(len(l.levers), func(k int) {
		dst[k] = 0
		for _, c := range l.levers[k] {
			for _, p := range c.parts {
				dst[k] += net * p.share * floats.Dot(weights[p.pot][p.producer], c.series)
			}
		}
	})
	return net * average
}

// eachAlone lists the picks as groups of one.
func eachAlone(picks []pick) (groups [][]int) {
	for i := range picks {
		groups = append(groups, []int{i})
	}
	return groups
}
