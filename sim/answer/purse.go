package answer

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// purse holds the payments of some farms, by farm, commodity and program.
type purse struct {
	payer
	buffers *buffers
	totals  map[pick]payments // before share
	flows   map[pick]flow     // after share, by producer

	everywhere   map[int]Series // by place of the producer: what it earns in all its operations, this one among them; none: in this one alone
	inOperations map[int]Everywhere
}

// pick is one farm's program for one commodity.
type pick struct {
	farm      string
	commodity crop.Commodity
	program   farm.Program
}

func newPurse(people payer, b *buffers) purse {
	return purse{payer: people, buffers: b, totals: map[pick]payments{}, flows: map[pick]flow{}}
}

// take adds what a commodity base is paid, but for what counts against no limit.
func (m purse) take(h *holding, all payoffs) {
	for _, p := range all {
		if p.apart {
			continue
		}
		k := pick{h.farm.Key(), h.commodity, p.program}
		m.totals[k], m.flows[k] = p.total(), m.payer.flows(h, p)
	}
}

// join adds the payments of another purse.
func (m purse) join(other purse) {
	maps.Copy(m.totals, other.totals)
	maps.Copy(m.flows, other.flows)
}

// uses reports whether anything counts against a pot.
func (m purse) uses(pot program.Pot) bool {
	for _, all := range m.everywhere {
		if all[slices.Index(pots[:], pot)] != nil {
			return true
		}
	}
	for k := range m.flows {
		if m.pot(k.commodity) == pot {
			return true
		}
	}
	return false
}

// workedOut is the purse with every payment worked out once for all draws: for
// questions that ask for them often. Give the series back with release.
func (m purse) workedOut() (ready purse, release func()) {
	ready = purse{payer: m.payer, buffers: m.buffers, totals: map[pick]payments{}, flows: map[pick]flow{}}
	done := map[*payment]*payment{}
	of := func(all payments) (worked payments) {
		for _, p := range all {
			if done[p.payment] == nil {
				series := m.buffers.zeros()
				p.payment.add(series, 1, 0)
				done[p.payment] = &payment{rates: series, most: p.most}
			}
			worked = append(worked, sharedPayment{payment: done[p.payment], share: p.share})
		}
		return worked
	}
	for k := range m.totals {
		ready.totals[k] = of(m.totals[k])
		for _, mine := range m.flows[k] {
			ready.flows[k] = append(ready.flows[k], of(mine))
		}
	}
	return ready, func() {
		for _, p := range done {
			m.buffers.give(p.rates)
		}
	}
}

// reached follows the payments of some picks to the people, the limit applied in
// each draw.
func (m purse) reached(picks []pick) reach {
	if m.neverLimited(picks) {
		return m.byShares(picks)
	}
	return m.reach(m.earning(picks))
}

// earning fills in what the producers earn under some picks.
func (m purse) earning(picks []pick) filler {
	at := m.potsOf(picks)
	return func(e *earned, from int) {
		e.zero()
		m.put(e, picks, at, 1, from)
	}
}

// potsOf returns the place of each pick's pot.
func (m purse) potsOf(picks []pick) []int {
	var at []int
	for _, k := range picks {
		at = append(at, slices.Index(pots[:], m.pot(k.commodity)))
	}
	return at
}

// afterLimit returns the average paid to all recipients together.
func (m purse) afterLimit(picks []pick) crop.Money { return m.reached(picks).total }

// paidTo is what each recipient is paid in each draw under some picks, after limits
// and sequestration. Give the series back with release.
func (m purse) paidTo(picks []pick) (paid [][]crop.Money, release func()) {
	for range m.attribution.Recipients {
		paid = append(paid, m.buffers.take())
	}
	m.follow(m.earning(picks), paid)
	return paid, func() { m.buffers.give(paid...) }
}

// mean is the average of payments, USD.
func (m purse) mean(all payments) (sum crop.Money) {
	for _, p := range all {
		sum += p.share * p.mean(m.buffers)
	}
	return sum
}

// limitBinds reports whether some choice goes over some recipient's limit in
// some outcome: then the choice of one farm depends on the others.
func (m purse) limitBinds(picks []pick) bool {
	highest := slices.Clone(picks)
	for i, k := range picks {
		if m.mostOf(turned(k)) > m.mostOf(k) {
			highest[i] = turned(k)
		}
	}
	if m.neverLimited(highest) {
		return false
	}
	at := m.potsOf(picks)
	mine, other := make([]crop.Money, m.buffers.draws.Tile()), make([]crop.Money, m.buffers.draws.Tile())
	higher := func(e *earned, from int) {
		e.zero()
		for i, k := range picks {
			for j := range m.flows[k] {
				clear(mine)
				clear(other)
				m.flows[k][j].add(mine, from)
				m.flows[turned(k)][j].add(other, from)
				for d := range mine {
					e[at[i]][j][d] += max(mine[d], other[d])
				}
			}
		}
	}
	return m.reach(higher).exceeding
}

// mostOf is the most that a pick can pay all producers in any draw.
func (m purse) mostOf(k pick) (most crop.Money) {
	for _, mine := range m.flows[k] {
		for _, p := range mine {
			most += p.share * p.most
		}
	}
	return most
}

// turned is the same farm and commodity under the other program.
func turned(k pick) pick {
	if k.program == farm.PLC {
		k.program = farm.ARCCO
	} else {
		k.program = farm.PLC
	}
	return k
}
