package limits

import (
	"gonum.org/v1/gonum/floats"

	"fencerow/program/crop"
	"fencerow/sim/elect"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
)

// optimization is what all producers earn under some picks of a purse that is worked out,
// with a flip for each group of picks: they go to the other program together. Give its
// series back with release.
func (m Payments) optimization(start []Election, groups [][]int) (o *elect.Operation, release func()) {
	sums, giveBack := m.AllEarned(start)
	o = &elect.Operation{Attribution: m.Attribution, Places: m.Places, Withheld: m.Sequestration.Value, Earned: elect.Earned(sums), Parallel: parallel.Do}
	var taken [][]crop.Money
	at := m.poolsOf(start)
	for _, group := range groups {
		if len(group) == 1 {
			o.Flips = append(o.Flips, m.flipOf(start[group[0]], at[group[0]]))
			continue
		}
		joint, series := m.jointFlip(group, start, at)
		o.Flips, taken = append(o.Flips, joint), append(taken, series...)
	}
	return o, func() {
		giveBack()
		m.Buffers.Release(taken...)
	}
}

// flipOf turns one pick to its other program.
func (m Payments) flipOf(k Election, pool int) (flip elect.Flip) {
	for _, change := range []struct {
		flow claimsByProducer
		sign float64
	}{{m.shared[k], -1}, {m.shared[otherProgram(k)], 1}} {
		places := map[*payoff.Claim]int{}
		for j, mine := range change.flow {
			for _, p := range mine {
				at, has := places[p.Claim]
				if !has {
					at = len(flip)
					places[p.Claim], flip = at, append(flip, elect.Column{Series: p.Rates})
				}
				flip[at].Stakes = append(flip[at].Stakes, elect.Stake{Pool: pool, Producer: j, Share: change.sign * p.Share})
			}
		}
	}
	return flip
}

// jointFlip turns several picks at once: one series for each producer and pool.
func (m Payments) jointFlip(group []int, start []Election, at []int) (flip elect.Flip, taken [][]crop.Money) {
	places := map[elect.Stake]int{}
	for _, i := range group {
		for _, c := range m.flipOf(start[i], at[i]) {
			for _, p := range c.Stakes {
				key := elect.Stake{Pool: p.Pool, Producer: p.Producer, Share: 1}
				place, has := places[key]
				if !has {
					place = len(flip)
					places[key], flip = place, append(flip, elect.Column{Series: m.Buffers.Zeros(), Stakes: []elect.Stake{key}})
					taken = append(taken, flip[place].Series)
				}
				floats.AddScaled(flip[place].Series, p.Share, c.Series)
			}
		}
	}
	return flip, taken
}
