package limits

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// AllEarned is what each producer earns in every draw under some picks, in this
// operation and in others. Give the series back with release.
func (m Payments) AllEarned(picks []Election) (sums earned, release func()) {
	var taken [][]crop.Money
	for pot := range sums {
		if !m.uses(Pools[pot]) {
			continue
		}
		for range m.Producers {
			sums[pot] = append(sums[pot], m.Buffers.Zeros())
		}
		taken = append(taken, sums[pot]...)
	}
	m.put(&sums, picks, m.poolsOf(picks), 1, 0)
	for j, all := range m.Everywhere {
		for pot, series := range all {
			if sums[pot] != nil {
				clear(sums[pot][j])
				copy(sums[pot][j], series)
			}
		}
	}
	return sums, func() { m.Buffers.Release(taken...) }
}

// put adds what some picks pay, sign times, to draws from, from+1 ...; at are their pots.
func (m Payments) put(e *earned, picks []Election, at []int, sign float64, from int) {
	for i, k := range picks {
		for j, mine := range m.flows[k] {
			for _, p := range mine {
				p.Claim.Add(e[at[i]][j], sign*p.Share, from)
			}
		}
	}
}

// tiles fills in some draws of what is earned in all.
func (e *earned) tiles(dst *earned, from int) {
	for pot, byProducer := range e {
		for j, series := range byProducer {
			copy(dst[pot][j], series[from:])
		}
	}
}

// flow is what one holding pays each producer under one program, after share.
type flow []payoff.Claims // by producer

// flows splits the payments of each base among the producers by their shares; a
// producer with too little base gets nothing.
func (p Rules) flows(h *position.CommodityBase, of *payoff.Payoff) flow {
	split := make(flow, len(p.Producers))
	for j, producer := range p.Producers {
		byBase := of.For(producer.ID)
		for k, part := range h.Bases {
			if share := p.ShareIn(j, h, part); share != 0 {
				split[j] = append(split[j], payoff.SharedClaim{Claim: byBase[k], Share: share})
			}
		}
	}
	return split
}

// ShareIn returns the share of a base that producer j is paid for.
func (p Rules) ShareIn(j int, h *position.CommodityBase, of position.Base) crop.Share {
	id := p.Producers[j].ID
	if p.TenAcres.Bars(id, h.Farm.Key()) {
		return 0
	}
	return of.Shares[id]
}

// Payments holds the payments of some farms, by farm, commodity and program.
type Payments struct {
	Rules
	Buffers *scenario.Buffers
	Totals  map[Election]payoff.Claims // before share
	flows   map[Election]flow          // after share, by producer

	Everywhere   map[int]Series // by place of the producer: what it earns in all its operations, this one among them; none: in this one alone
	InOperations map[int]Everywhere
}

// Pick is one farm's program for one commodity.
type Election struct {
	Farm      string
	Commodity crop.Commodity
	Program   farm.Program
}

// NewPayments are none yet; series are taken from the buffers.
func NewPayments(people Rules, b *scenario.Buffers) Payments {
	return Payments{Rules: people, Buffers: b, Totals: map[Election]payoff.Claims{}, flows: map[Election]flow{}}
}

// Acquire adds what a commodity base is paid, but for what counts against no limit.
func (m Payments) Take(h *position.CommodityBase, all payoff.Payoffs) {
	for _, p := range all {
		if p.Apart {
			continue
		}
		k := Election{h.Farm.Key(), h.Commodity, p.Program}
		m.Totals[k], m.flows[k] = p.Total(), m.Rules.flows(h, p)
	}
}

// Join adds the payments of another purse.
func (m Payments) Join(other Payments) {
	maps.Copy(m.Totals, other.Totals)
	maps.Copy(m.flows, other.flows)
}

// uses reports whether anything counts against a pot.
func (m Payments) uses(pot program.Pot) bool {
	for _, all := range m.Everywhere {
		if all[slices.Index(Pools[:], pot)] != nil {
			return true
		}
	}
	for k := range m.flows {
		if m.Pool(k.Commodity) == pot {
			return true
		}
	}
	return false
}

// WorkedOut is the purse with every payment worked out once for all draws: for
// questions that ask for them often. Give the series back with release.
func (m Payments) WorkedOut() (ready Payments, release func()) {
	ready = Payments{Rules: m.Rules, Buffers: m.Buffers, Totals: map[Election]payoff.Claims{}, flows: map[Election]flow{}}
	done := map[*payoff.Claim]*payoff.Claim{}
	of := func(all payoff.Claims) (worked payoff.Claims) {
		for _, p := range all {
			if done[p.Claim] == nil {
				series := m.Buffers.Zeros()
				p.Claim.Add(series, 1, 0)
				done[p.Claim] = &payoff.Claim{Rates: series, Most: p.Most}
			}
			worked = append(worked, payoff.SharedClaim{Claim: done[p.Claim], Share: p.Share})
		}
		return worked
	}
	for k := range m.Totals {
		ready.Totals[k] = of(m.Totals[k])
		for _, mine := range m.flows[k] {
			ready.flows[k] = append(ready.flows[k], of(mine))
		}
	}
	return ready, func() {
		for _, p := range done {
			m.Buffers.Release(p.Rates)
		}
	}
}

// poolsOf returns the place of each pick's pot.
func (m Payments) poolsOf(picks []Election) []int {
	var at []int
	for _, k := range picks {
		at = append(at, slices.Index(Pools[:], m.Pool(k.Commodity)))
	}
	return at
}

// Means is the average of payments, USD.
func (m Payments) Mean(all payoff.Claims) (sum crop.Money) {
	for _, p := range all {
		sum += p.Share * p.Mean(m.Buffers)
	}
	return sum
}

// mostOf is the most that a pick can pay all producers in any draw.
func (m Payments) mostOf(k Election) (most crop.Money) {
	for _, mine := range m.flows[k] {
		for _, p := range mine {
			most += p.Share * p.Most
		}
	}
	return most
}

// turned is the same farm and commodity under the other program.
func turned(k Election) Election {
	if k.Program == farm.PLC {
		k.Program = farm.ARCCO
	} else {
		k.Program = farm.PLC
	}
	return k
}

// Pools are the limits that payments count against.
var Pools = [...]program.Pot{program.General, program.Peanuts}

// earned is what each producer earns in some draws, by pot.
type earned [len(Pools)][][]crop.Money // [pot][producer][draw]

// filler sets what the producers earn in draws from, from+1 ...
type filler func(e *earned, from int)

// zero clears all.
func (e *earned) zero() {
	for _, byProducer := range e {
		for _, series := range byProducer {
			clear(series)
		}
	}
}
