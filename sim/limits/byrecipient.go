package limits

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/sim/scenario"
)

// RecipientMeans are what each recipient earns and is paid, as means over all scenarios,
// USD, in the order of Attribution.Recipients.
type RecipientMeans struct {
	Attributed    []float64 // by shares alone, before limits and sequestration
	Paid          []float64 // after limits and sequestration
	withinLimit   []float64 // arrived and within its limit, before sequestration; an entity's includes what it passes on
	Withheld      []float64 // arrived and cut by its limit, before sequestration
	AtLimit       []float64 // share of scenarios in which a limit of it is filled, 0 to 1
	Total         float64   // Paid of all recipients together
	limitExceeded bool      // a limit cut something in some scenario

	byScenario [][]crop.Money // [recipient][scenario], as Paid; nil where nobody asked
}

func newRecipientMeans(recipients int) RecipientMeans {
	zeros := func() []float64 { return make([]float64, recipients) }
	return RecipientMeans{Attributed: zeros(), Paid: zeros(), withinLimit: zeros(), Withheld: zeros(), AtLimit: zeros()}
}

// ByRecipient returns what each recipient is paid under some elections, the limits
// applied in every scenario.
func (m Payments) ByRecipient(elections []Election) RecipientMeans {
	if m.neverLimited(elections) {
		return m.bySharesAlone(elections)
	}
	return m.attribute(m.earnedUnder(elections))
}

// MeanAfterLimit returns the mean paid to all recipients together under some elections,
// USD after limits and sequestration.
func (m Payments) MeanAfterLimit(elections []Election) crop.Money {
	return m.ByRecipient(elections).Total
}

// PaidByScenario returns what each recipient is paid in each scenario under some
// elections, USD after limits and sequestration: [recipient][scenario]. Call release
// when done.
func (m Payments) PaidByScenario(elections []Election) (paid [][]crop.Money, release func()) {
	for range m.Attribution.Recipients {
		paid = append(paid, m.Buffers.Acquire())
	}
	m.attributeInto(m.earnedUnder(elections), paid)
	return paid, func() { m.Buffers.Release(paid...) }
}

// earnedUnder is the filler of some elections.
func (m Payments) earnedUnder(elections []Election) filler {
	pools := m.poolsOf(elections)
	return func(dst *Earned, first int) {
		dst.zero()
		m.addEarned(dst, elections, pools, 1, first)
	}
}

// limitBinds reports whether a limit may be exceeded under some choice of PLC and
// ARC-CO: then the farms cannot be decided one by one. It may err toward true, because
// it takes the higher of both programs in each scenario.
func (m Payments) limitBinds(elections []Election) bool {
	highest := slices.Clone(elections)
	for i, e := range elections {
		if m.maximumOf(otherProgram(e)) > m.maximumOf(e) {
			highest[i] = otherProgram(e)
		}
	}
	if m.neverLimited(highest) {
		return false
	}
	pools := m.poolsOf(elections)
	one, other := make([]crop.Money, m.Buffers.Size.Tile()), make([]crop.Money, m.Buffers.Size.Tile())
	higherOfBoth := func(dst *Earned, first int) {
		dst.zero()
		for i, e := range elections {
			for j := range m.shared[e] {
				clear(one)
				clear(other)
				m.shared[e][j].Add(one, first)
				m.shared[otherProgram(e)][j].Add(other, first)
				for s := range one {
					dst[pools[i]][j][s] += max(one[s], other[s])
				}
			}
		}
	}
	return m.attribute(higherOfBoth).limitExceeded
}

// attribute follows what the producers earn to the recipients, scenario by scenario.
// Money is before sequestration until the last step, whatever the law's order of
// reductions: LimitRule.Reduced has scaled the limits to that.
func (m Payments) attribute(fill filler) RecipientMeans {
	return m.attributeInto(fill, nil)
}

// attributeInto is attribute; where paid is not nil, it fills [recipient][scenario] with
// what is paid.
func (m Payments) attributeInto(fill filler, paid [][]crop.Money) RecipientMeans {
	out := newRecipientMeans(len(m.Attribution.Recipients))
	out.byScenario = paid
	t := m.newTracer()
	for first := 0; first < m.Buffers.Size.N(); first += m.Buffers.Size.Tile() {
		fill(&t.earned, first)
		t.first = first
		if t.unlimited() {
			t.attributeUnlimited(&out)
		} else {
			t.attributeLimited(&out)
		}
	}
	for k := range out.Paid {
		for _, sums := range [][]float64{out.Attributed, out.Paid, out.withinLimit, out.Withheld, out.AtLimit} {
			sums[k] /= float64(m.Buffers.Size.N())
		}
		out.Total += out.Paid[k]
	}
	return out
}

// neverLimited reports that no limit can be reached: in each pool the maxima of all
// claims, of all producers together, sum to less than the smallest limit left to any
// recipient, and nobody is barred for income.
func (m Payments) neverLimited(elections []Election) bool {
	var most [len(Pools)]crop.Money
	for i, pool := range m.poolsOf(elections) {
		for _, claims := range m.shared[elections[i]] {
			for _, c := range claims {
				most[pool] += c.Share * c.Most
			}
		}
	}
	for _, r := range m.Attribution.Recipients {
		for at, pool := range Pools {
			if r.Barred || most[at] > 0 && most[at] >= r.BindsAt(pool) {
				return false
			}
		}
	}
	return true
}

// bySharesAlone is ByRecipient where no limit can be reached: every step is linear, so
// means of claims are enough. It leaves out the rounding to the cent after
// sequestration, which averages out.
func (m Payments) bySharesAlone(elections []Election) RecipientMeans {
	n := len(m.Attribution.Recipients)
	out := newRecipientMeans(n)
	var earned [len(Pools)][]crop.Money // [pool][recipient], mean
	for pool := range earned {
		earned[pool] = make([]crop.Money, n)
	}
	for i, pool := range m.poolsOf(elections) {
		for j, claims := range m.shared[elections[i]] {
			for _, c := range claims {
				earned[pool][m.Places[j]] += c.Share * c.Mean(m.Buffers)
			}
		}
	}
	arrived, ended := make([]crop.Money, n), make([]crop.Money, n)
	for pool, own := range earned {
		m.Attribution.Trace(Pools[pool], own, arrived, ended)
		scenario.AddScaled(out.Attributed, 1, ended)
		scenario.AddScaled(out.withinLimit, 1, arrived)
	}
	for k, mean := range out.Attributed {
		out.Paid[k] = mean * (1 - m.Sequestration.Value)
		out.Total += out.Paid[k]
	}
	return out
}
