package limits

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/elect"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
)

// optimization states the choice of elections as package elect wants it: what producers
// earn under start, and one flip for each group of elections that change program
// together. Call release when done.
func (m Payments) optimization(start []Election, groups [][]int) (o *elect.Operation, release func()) {
	sums, releaseSums := m.AllEarned(start)
	o = &elect.Operation{Attribution: m.Attribution, Places: m.Places, Withheld: m.Sequestration.Value, Earned: elect.Earned(sums), Parallel: parallel.Do}
	var acquired [][]crop.Money
	pools := m.poolsOf(start)
	for _, group := range groups {
		if len(group) == 1 {
			o.Flips = append(o.Flips, m.flipOf(start[group[0]], pools[group[0]]))
			continue
		}
		joint, series := m.jointFlip(group, start, pools)
		o.Flips, acquired = append(o.Flips, joint), append(acquired, series...)
	}
	return o, func() {
		releaseSums()
		m.Buffers.Release(acquired...)
	}
}

// change are payments that begin (sign 1) or end (-1).
type change struct {
	claims claimsByProducer
	sign   float64
}

// changesOf are what ends and what begins where an election goes to the other program.
func (m Payments) changesOf(e Election) [2]change {
	return [...]change{{m.shared[e], -1}, {m.shared[otherProgram(e)], 1}}
}

// flipOf changes one election to the other program: a column for each claim, its stakes
// negative under the program left. A claim that is not Evaluated is its rates, shared by all
// bases that are paid by them, times what they bring.
func (m Payments) flipOf(e Election, pool int) (flip elect.Flip) {
	for _, change := range m.changesOf(e) {
		columns := map[*payoff.Claim]int{}
		for _, one := range change.claims {
			for _, c := range one.claims {
				at, has := columns[c.Claim]
				if !has {
					at = len(flip)
					columns[c.Claim], flip = at, append(flip, elect.Column{Series: c.Rates})
				}
				stake := elect.Stake{Pool: pool, Producer: one.producer, Share: change.sign * c.Share}
				if c.Pay != nil {
					stake.Share, stake.Off = stake.Share*c.PerRate, program.HalfCent*c.Share
				}
				flip[at].Stakes = append(flip[at].Stakes, stake)
			}
		}
	}
	return flip
}

// jointFlip changes the elections of a group together: a column for each producer and
// pool. The caller releases the acquired series.
func (m Payments) jointFlip(group []int, start []Election, pools []int) (flip elect.Flip, acquired [][]crop.Money) {
	columns := map[elect.Stake]int{}
	series := func(pool, producer int) []crop.Money {
		whole := elect.Stake{Pool: pool, Producer: producer, Share: 1}
		at, has := columns[whole]
		if !has {
			at = len(flip)
			columns[whole], flip = at, append(flip, elect.Column{Series: m.Buffers.Zeros(), Stakes: []elect.Stake{whole}})
			acquired = append(acquired, flip[at].Series)
		}
		return flip[at].Series
	}
	for _, i := range group {
		for _, change := range m.changesOf(start[i]) {
			for _, one := range change.claims {
				for _, c := range one.claims {
					c.Claim.Add(series(pools[i], one.producer), change.sign*c.Share, 0)
				}
			}
		}
	}
	return flip, acquired
}
