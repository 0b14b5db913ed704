package limits

import (
	"gonum.org/v1/gonum/floats"

	"fencerow/program/crop"
	"fencerow/sim/elect"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
)

// optimization states the choice of elections as package elect wants it: what producers
// earn under start, and one flip for each group of elections that change program
// together. Payments must be Evaluated. Call release when done.
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

// flipOf changes one election to the other program: a column for each claim, its stakes
// negative under the program left.
func (m Payments) flipOf(e Election, pool int) (flip elect.Flip) {
	for _, change := range []struct {
		claims claimsByProducer
		sign   float64
	}{{m.shared[e], -1}, {m.shared[otherProgram(e)], 1}} {
		columns := map[*payoff.Claim]int{}
		for _, one := range change.claims {
			for _, c := range one.claims {
				at, has := columns[c.Claim]
				if !has {
					at = len(flip)
					columns[c.Claim], flip = at, append(flip, elect.Column{Series: c.Rates})
				}
				flip[at].Stakes = append(flip[at].Stakes, elect.Stake{Pool: pool, Producer: one.producer, Share: change.sign * c.Share})
			}
		}
	}
	return flip
}

// jointFlip changes the elections of a group together: a column for each producer and
// pool. The caller releases the acquired series.
func (m Payments) jointFlip(group []int, start []Election, pools []int) (flip elect.Flip, acquired [][]crop.Money) {
	columns := map[elect.Stake]int{}
	for _, i := range group {
		for _, c := range m.flipOf(start[i], pools[i]) {
			for _, stake := range c.Stakes {
				whole := elect.Stake{Pool: stake.Pool, Producer: stake.Producer, Share: 1}
				at, has := columns[whole]
				if !has {
					at = len(flip)
					columns[whole], flip = at, append(flip, elect.Column{Series: m.Buffers.Zeros(), Stakes: []elect.Stake{whole}})
					acquired = append(acquired, flip[at].Series)
				}
				floats.AddScaled(flip[at].Series, stake.Share, c.Series)
			}
		}
	}
	return flip, acquired
}
