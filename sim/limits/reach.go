package limits

import (
	"slices"

	"fencerow/program/crop"
	"fencerow/sim/scenario"
)

// Reached follows the payments of some picks to the people, the limit applied in
// each draw.
func (m Payments) Reached(picks []Election) Reach {
	if m.neverLimited(picks) {
		return m.byShares(picks)
	}
	return m.reach(m.earning(picks))
}

// earning fills in what the producers earn under some picks.
func (m Payments) earning(picks []Election) filler {
	at := m.poolsOf(picks)
	return func(e *earned, from int) {
		e.zero()
		m.put(e, picks, at, 1, from)
	}
}

// AfterLimit returns the average paid to all recipients together.
func (m Payments) AfterLimit(picks []Election) crop.Money { return m.Reached(picks).Total }

// PaidTo is what each recipient is paid in each draw under some picks, after limits
// and sequestration. Give the series back with release.
func (m Payments) PaidTo(picks []Election) (paid [][]crop.Money, release func()) {
	for range m.Attribution.Recipients {
		paid = append(paid, m.Buffers.Acquire())
	}
	m.follow(m.earning(picks), paid)
	return paid, func() { m.Buffers.Release(paid...) }
}

// limitBinds reports whether some choice goes over some recipient's limit in
// some outcome: then the choice of one farm depends on the others.
func (m Payments) limitBinds(picks []Election) bool {
	highest := slices.Clone(picks)
	for i, k := range picks {
		if m.mostOf(turned(k)) > m.mostOf(k) {
			highest[i] = turned(k)
		}
	}
	if m.neverLimited(highest) {
		return false
	}
	at := m.poolsOf(picks)
	mine, other := make([]crop.Money, m.Buffers.Size.Tile()), make([]crop.Money, m.Buffers.Size.Tile())
	higher := func(e *earned, from int) {
		e.zero()
		for i, k := range picks {
			for j := range m.flows[k] {
				clear(mine)
				clear(other)
				m.flows[k][j].Add(mine, from)
				m.flows[turned(k)][j].Add(other, from)
				for d := range mine {
					e[at[i]][j][d] += max(mine[d], other[d])
				}
			}
		}
	}
	return m.reach(higher).exceeding
}

// Reach follows what the producers earn to the persons behind them, draw by
// draw. Limits stand in dollars before sequestration in either order of the two
// (program.LimitRule), so that sequestration is the last step.
func (m Payments) reach(fill filler) Reach {
	return m.follow(fill, nil)
}

// follow is reach that also fills paid, where it is not nil.
func (m Payments) follow(fill filler, paid [][]crop.Money) Reach {
	n := len(m.Attribution.Recipients)
	out := Reach{Before: make([]float64, n), After: make([]float64, n), within: make([]float64, n), Withheld: make([]float64, n), AtLimit: make([]float64, n), paid: paid}
	t := m.newTracer()
	for from := 0; from < m.Buffers.Size.N(); from += m.Buffers.Size.Tile() {
		fill(&t.earned, from)
		t.from = from
		if t.unlimited() {
			t.pass(&out)
		} else {
			t.trace(&out)
		}
	}
	for k := range out.After {
		for _, sums := range [][]float64{out.Before, out.After, out.within, out.Withheld, out.AtLimit} {
			sums[k] /= float64(m.Buffers.Size.N())
		}
		out.Total += out.After[k]
	}
	return out
}

// neverLimited reports whether no limit can be reached in any draw: all that the
// picks can pay at most, to all producers together, is less than the least that
// any recipient has room for.
func (m Payments) neverLimited(picks []Election) bool {
	var most [len(Pools)]crop.Money
	for i, at := range m.poolsOf(picks) {
		for _, mine := range m.flows[picks[i]] {
			for _, p := range mine {
				most[at] += p.Share * p.Most
			}
		}
	}
	for _, r := range m.Attribution.Recipients {
		for at, pot := range Pools {
			if r.Barred || most[at] > 0 && most[at] >= r.BindsAt(pot) {
				return false
			}
		}
	}
	return true
}

// byShares is reach where no limit can be reached: everything is in proportion, so
// averages tell all. Cents are rounded in the payments, not again after
// sequestration, whose rounding averages out.
func (m Payments) byShares(picks []Election) Reach {
	n := len(m.Attribution.Recipients)
	out := Reach{Before: make([]float64, n), After: make([]float64, n), within: make([]float64, n), Withheld: make([]float64, n), AtLimit: make([]float64, n)}
	var earned [len(Pools)][]crop.Money // by recipient
	for at := range earned {
		earned[at] = make([]crop.Money, n)
	}
	for i, at := range m.poolsOf(picks) {
		for j, mine := range m.flows[picks[i]] {
			for _, p := range mine {
				earned[at][m.Places[j]] += p.Share * p.Mean(m.Buffers)
			}
		}
	}
	arrived, ended := make([]crop.Money, n), make([]crop.Money, n)
	for at, own := range earned {
		m.Attribution.Trace(Pools[at], own, arrived, ended)
		scenario.AddScaled(out.Before, 1, ended)
		scenario.AddScaled(out.within, 1, arrived)
	}
	for k, mean := range out.Before {
		out.After[k] = mean * (1 - m.Sequestration.Value)
		out.Total += out.After[k]
	}
	return out
}
