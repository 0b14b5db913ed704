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
func (m Payments) AllEarned(picks []Election) (sums Earned, release func()) {
	var taken [][]crop.Money
	for pool := range sums {
		if !m.usesPool(Pools[pool]) {
			continue
		}
		for range m.Producers {
			sums[pool] = append(sums[pool], m.Buffers.Zeros())
		}
		taken = append(taken, sums[pool]...)
	}
	m.add(&sums, picks, m.poolsOf(picks), 1, 0)
	for j, all := range m.EarnedAcross {
		for pool, series := range all {
			if sums[pool] != nil {
				clear(sums[pool][j])
				copy(sums[pool][j], series)
			}
		}
	}
	return sums, func() { m.Buffers.Release(taken...) }
}

// add adds what some picks pay, sign times, to draws from, from+1 ...; at are their limit pools.
func (m Payments) add(e *Earned, picks []Election, at []int, sign float64, from int) {
	for i, k := range picks {
		for j, mine := range m.shared[k] {
			for _, p := range mine {
				p.Claim.Add(e[at[i]][j], sign*p.Share, from)
			}
		}
	}
}

// claimsByProducer is what one holding pays each producer under one program, after share.
type claimsByProducer []payoff.Claims // by producer

// shared splits the payments of each base among the producers by their shares; a
// producer with too little base gets nothing.
func (p Rules) split(h *position.CommodityBase, of *payoff.Payoff) claimsByProducer {
	split := make(claimsByProducer, len(p.Producers))
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
	Totals  map[Election]payoff.Claims    // before share
	shared  map[Election]claimsByProducer // after share, by producer

	EarnedAcross map[int]Earnings // by place of the producer: what it earns in all its operations, this one among them; none: in this one alone
	Across       map[int]AcrossOperations
}

// Election is one farm's program for one commodity.
type Election struct {
	Farm      string
	Commodity crop.Commodity
	Program   farm.Program
}

// NewPayments are none yet; series are taken from the buffers.
func NewPayments(people Rules, b *scenario.Buffers) Payments {
	return Payments{Rules: people, Buffers: b, Totals: map[Election]payoff.Claims{}, shared: map[Election]claimsByProducer{}}
}

// Acquire adds what a commodity base is paid, but for what counts against no limit.
func (m Payments) Add(h *position.CommodityBase, all payoff.Payoffs) {
	for _, p := range all {
		if p.Apart {
			continue
		}
		k := Election{h.Farm.Key(), h.Commodity, p.Program}
		m.Totals[k], m.shared[k] = p.Total(), m.Rules.split(h, p)
	}
}

// Merge adds the payments of another purse.
func (m Payments) Merge(other Payments) {
	maps.Copy(m.Totals, other.Totals)
	maps.Copy(m.shared, other.shared)
}

// usesPool reports whether anything counts against a pool.
func (m Payments) usesPool(pool program.LimitPool) bool {
	for _, all := range m.EarnedAcross {
		if all[slices.Index(Pools[:], pool)] != nil {
			return true
		}
	}
	for k := range m.shared {
		if m.Pool(k.Commodity) == pool {
			return true
		}
	}
	return false
}

// Evaluated is the purse with every payment worked out once for all draws: for
// questions that ask for them often. Give the series back with release.
func (m Payments) Evaluated() (ready Payments, release func()) {
	ready = Payments{Rules: m.Rules, Buffers: m.Buffers, Totals: map[Election]payoff.Claims{}, shared: map[Election]claimsByProducer{}}
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
		for _, mine := range m.shared[k] {
			ready.shared[k] = append(ready.shared[k], of(mine))
		}
	}
	return ready, func() {
		for _, p := range done {
			m.Buffers.Release(p.Rates)
		}
	}
}

// poolsOf returns the place of each pick's pool.
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

// maximumOf is the most that a pick can pay all producers in any draw.
func (m Payments) maximumOf(k Election) (most crop.Money) {
	for _, mine := range m.shared[k] {
		for _, p := range mine {
			most += p.Share * p.Most
		}
	}
	return most
}

// otherProgram is the same farm and commodity under the other program.
func otherProgram(k Election) Election {
	if k.Program == farm.PLC {
		k.Program = farm.ARCCO
	} else {
		k.Program = farm.PLC
	}
	return k
}
