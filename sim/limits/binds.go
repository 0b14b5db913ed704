package limits

import (
	"fencerow/program/crop"
	"fencerow/sim/payoff"
)

// limitBinds reports whether a limit may be exceeded under some choice of PLC and ARC-CO:
// then the farms cannot be decided one by one. It may err toward true, because it takes
// the higher of both programs in each scenario. The greatest payments are asked first:
// where even these exceed no limit, no scenario is looked at.
func (m Payments) limitBinds(elections []Election) bool {
	if !m.greatestExceed(elections) {
		return false
	}
	pools := m.poolsOf(elections)
	t := m.newTracer(m.sharing(elections), used(pools))
	one, other := make([]crop.Money, m.Buffers.Size.Tile()), make([]crop.Money, m.Buffers.Size.Tile())
	higherOfBoth := func(dst *Earned, first int) {
		for i, e := range elections {
			m.shared[e].beside(m.shared[otherProgram(e)], func(producer int, mine, others payoff.Claims) {
				clear(one)
				clear(other)
				mine.Add(one, first)
				others.Add(other, first)
				for s := range one {
					dst[pools[i]][producer][s] += max(one[s], other[s])
				}
			})
		}
	}
	for first := 0; first < m.Buffers.Size.N(); first += m.Buffers.Size.Tile() {
		t.fill(higherOfBoth, first)
		if t.exceeded() {
			return true
		}
	}
	return false
}

// beside calls do for each producer of all, with its claims and those that it has in other.
func (all claimsByProducer) beside(other claimsByProducer, do func(producer int, mine, others payoff.Claims)) {
	for k, one := range all {
		if k < len(other) && other[k].producer == one.producer {
			do(one.producer, one.claims, other[k].claims)
		} else {
			do(one.producer, one.claims, other.of(one.producer))
		}
	}
}

// roundingMargin is what sums of the greatest payments may be off by floating-point
// arithmetic, as a share of them.
const roundingMargin = crop.Noise

// greatestExceed reports whether a limit would be exceeded if every base were paid the most
// that PLC or ARC-CO can bring in any scenario. What arrives at a recipient never falls
// where more is earned, so that no limit is exceeded in any scenario unless it is here.
func (m Payments) greatestExceed(elections []Election) bool {
	n := len(m.Attribution.Recipients)
	var most [len(Pools)][]crop.Money // [pool][recipient]
	for pool := range most {
		most[pool] = make([]crop.Money, n)
	}
	for i, pool := range m.poolsOf(elections) {
		m.shared[elections[i]].beside(m.shared[otherProgram(elections[i])], func(producer int, mine, others payoff.Claims) {
			most[pool][m.Places[producer]] += max(mine.Most(), others.Most()) * (1 + roundingMargin)
		})
	}
	arrived, ended := make([]crop.Money, n), make([]crop.Money, n)
	for pool, own := range most {
		m.Attribution.Trace(Pools[pool], own, arrived, ended)
		for k := range arrived {
			if m.Attribution.Over(Pools[pool], k, arrived[k]) > 0 {
				return true
			}
		}
	}
	return false
}
