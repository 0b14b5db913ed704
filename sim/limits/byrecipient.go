package limits

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/sim/scenario"
)

// ByRecipient follows the payments of some picks to the people, the limit applied in
// each draw.
func (m Payments) ByRecipient(picks []Election) RecipientMeans {
	if m.neverLimited(picks) {
		return m.byShares(picks)
	}
	return m.attribute(m.earning(picks))
}

// earning fills in what the producers earn under some picks.
func (m Payments) earning(picks []Election) filler {
	at := m.poolsOf(picks)
	return func(e *Earned, from int) {
		e.zero()
		m.add(e, picks, at, 1, from)
	}
}

// DifferenceAfterLimit returns the average paid to all recipients together.
func (m Payments) MeanAfterLimit(picks []Election) crop.Money { return m.ByRecipient(picks).Total }

// PaidByScenario is what each recipient is paid in each draw under some picks, after limits
// and sequestration. Give the series back with release.
func (m Payments) PaidByScenario(picks []Election) (paid [][]crop.Money, release func()) {
	for range m.Attribution.Recipients {
		paid = append(paid, m.Buffers.Acquire())
	}
	m.attributeInto(m.earning(picks), paid)
	return paid, func() { m.Buffers.Release(paid...) }
}

// limitBinds reports whether some choice goes over some recipient's limit in
// some outcome: then the choice of one farm depends on the others.
func (m Payments) limitBinds(picks []Election) bool {
	highest := slices.Clone(picks)
	for i, k := range picks {
		if m.maximumOf(otherProgram(k)) > m.maximumOf(k) {
			highest[i] = otherProgram(k)
		}
	}
	if m.neverLimited(highest) {
		return false
	}
	at := m.poolsOf(picks)
	mine, other := make([]crop.Money, m.Buffers.Size.Tile()), make([]crop.Money, m.Buffers.Size.Tile())
	higher := func(e *Earned, from int) {
		e.zero()
		for i, k := range picks {
			for j := range m.shared[k] {
				clear(mine)
				clear(other)
				m.shared[k][j].Add(mine, from)
				m.shared[otherProgram(k)][j].Add(other, from)
				for d := range mine {
					e[at[i]][j][d] += max(mine[d], other[d])
				}
			}
		}
	}
	return m.attribute(higher).limitExceeded
}

// RecipientMeans follows what the producers earn to the persons behind them, draw by
// draw. Limits stand in dollars before sequestration in either order of the two
// (program.LimitRule), so that sequestration is the last step.
func (m Payments) attribute(fill filler) RecipientMeans {
	return m.attributeInto(fill, nil)
}

// attributeInto is reach that also fills paid, where it is not nil.
func (m Payments) attributeInto(fill filler, paid [][]crop.Money) RecipientMeans {
	n := len(m.Attribution.Recipients)
	out := RecipientMeans{Attributed: make([]float64, n), Paid: make([]float64, n), withinLimit: make([]float64, n), Withheld: make([]float64, n), AtLimit: make([]float64, n), byScenario: paid}
	t := m.newTracer()
	for from := 0; from < m.Buffers.Size.N(); from += m.Buffers.Size.Tile() {
		fill(&t.earned, from)
		t.first = from
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

// neverLimited reports whether no limit can be reached in any draw: all that the
// picks can pay at most, to all producers together, is less than the least that
// any recipient has room for.
func (m Payments) neverLimited(picks []Election) bool {
	var most [len(Pools)]crop.Money
	for i, at := range m.poolsOf(picks) {
		for _, mine := range m.shared[picks[i]] {
			for _, p := range mine {
				most[at] += p.Share * p.Most
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

// byShares is reach where no limit can be reached: everything is in proportion, so
// averages tell all. Cents are rounded in the payments, not again after
// sequestration, whose rounding averages out.
func (m Payments) byShares(picks []Election) RecipientMeans {
	n := len(m.Attribution.Recipients)
	out := RecipientMeans{Attributed: make([]float64, n), Paid: make([]float64, n), withinLimit: make([]float64, n), Withheld: make([]float64, n), AtLimit: make([]float64, n)}
	var earned [len(Pools)][]crop.Money // by recipient
	for at := range earned {
		earned[at] = make([]crop.Money, n)
	}
	for i, at := range m.poolsOf(picks) {
		for j, mine := range m.shared[picks[i]] {
			for _, p := range mine {
				earned[at][m.Places[j]] += p.Share * p.Mean(m.Buffers)
			}
		}
	}
	arrived, ended := make([]crop.Money, n), make([]crop.Money, n)
	for at, own := range earned {
		m.Attribution.Trace(Pools[at], own, arrived, ended)
		scenario.AddScaled(out.Attributed, 1, ended)
		scenario.AddScaled(out.withinLimit, 1, arrived)
	}
	for k, mean := range out.Attributed {
		out.Paid[k] = mean * (1 - m.Sequestration.Value)
		out.Total += out.Paid[k]
	}
	return out
}
