package limits

import (
	"maps"
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/parallel"
	"fencerow/sim/payoff"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// Payments are what some farms are paid in one crop year, under every program that has
// figures: by farm, commodity and program.
type Payments struct {
	Rules
	Buffers *scenario.Buffers
	Totals  map[Election]payoff.Claims    // of all producers together, before share
	shared  map[Election]claimsByProducer // after share
	known   *known                        // means by elections: the same are asked about several times; copies share it

	// Persons with a share in other operations too, by place in Producers; a producer of
	// this operation alone has no entry. EarnedAcross stands in for what it earns here.
	EarnedAcross map[int]Earnings
	Across       map[int]AcrossOperations
}

// known are means by keyOf elections.
type known = parallel.Memo[string, RecipientMeans]

// Election is the program of one commodity on one farm.
type Election struct {
	Farm      string
	Commodity crop.Commodity
	Program   farm.Program
}

// otherProgram returns ARC-CO for an election of PLC, PLC for any other.
func otherProgram(e Election) Election {
	if e.Program == farm.PLC {
		e.Program = farm.ARCCO
	} else {
		e.Program = farm.PLC
	}
	return e
}

// NewPayments returns payments of no farm yet.
func NewPayments(people Rules, b *scenario.Buffers) Payments {
	return Payments{Rules: people, Buffers: b, Totals: map[Election]payoff.Claims{}, shared: map[Election]claimsByProducer{}, known: &known{}}
}

// Add adds the payoffs of one commodity base, except those that stand apart from
// elections and limits (insurance).
func (m Payments) Add(h *position.CommodityBase, all payoff.Payoffs) {
	for _, p := range all {
		if p.Apart {
			continue
		}
		e := Election{h.Farm.Key(), h.Commodity, p.Program}
		m.Totals[e], m.shared[e] = p.Total(), m.split(h, p)
	}
}

// Same reports whether other are copies of the same payments.
func (m Payments) Same(other Payments) bool { return m.known == other.known }

// Merge adds the payments of other farms.
func (m Payments) Merge(other Payments) {
	maps.Copy(m.Totals, other.Totals)
	maps.Copy(m.shared, other.shared)
}

// claimsByProducer are the claims of those producers who have a share in one commodity
// base, under one program, in the order of Producers.
type claimsByProducer []producerClaims

type producerClaims struct {
	producer int // place in Producers
	claims   payoff.Claims
}

// of returns the claims of one producer.
func (all claimsByProducer) of(producer int) payoff.Claims {
	for _, one := range all {
		if one.producer == producer {
			return one.claims
		}
	}
	return nil
}

// split divides the payments of each part of a base among the producers by their shares.
func (p Rules) split(h *position.CommodityBase, of *payoff.Payoff) claimsByProducer {
	var all claimsByProducer
	first := of.Parts()
	for j, producer := range p.Producers {
		byPart := of.For(producer.ID)
		var claims payoff.Claims
		for k, base := range first {
			if share := p.ShareIn(j, h, h.Bases[base]); share != 0 {
				claims = append(claims, payoff.SharedClaim{Claim: byPart[k], Share: share})
			}
		}
		if claims != nil {
			all = append(all, producerClaims{j, claims})
		}
	}
	return all
}

// ShareIn returns the share of a base that producer j is paid for: 0 where the ten-acre
// rule bars the producer on the farm.
func (p Rules) ShareIn(j int, h *position.CommodityBase, base position.Base) crop.Share {
	id := p.Producers[j].ID
	if p.TenAcres.Bars(id, h.Farm.Key()) {
		return 0
	}
	return base.Shares[id]
}

// Evaluated returns the same payments with every claim computed once for all scenarios,
// for questions that read them often. It costs a series for each claim: call release
// when done. Persons of several operations are left out.
func (m Payments) Evaluated() (ready Payments, release func()) {
	ready = NewPayments(m.Rules, m.Buffers)
	ready.known = m.known // the same payments
	done := map[*payoff.Claim]*payoff.Claim{}
	evaluate := func(all payoff.Claims) (out payoff.Claims) {
		for _, c := range all {
			if done[c.Claim] == nil {
				series := m.Buffers.Zeros()
				c.Claim.Add(series, 1, 0)
				done[c.Claim] = &payoff.Claim{Rates: series, Most: c.Most}
			}
			out = append(out, payoff.SharedClaim{Claim: done[c.Claim], Share: c.Share})
		}
		return out
	}
	for e := range m.Totals {
		ready.Totals[e] = evaluate(m.Totals[e])
		for _, one := range m.shared[e] {
			ready.shared[e] = append(ready.shared[e], producerClaims{one.producer, evaluate(one.claims)})
		}
	}
	return ready, func() {
		for _, c := range done {
			m.Buffers.Release(c.Rates)
		}
	}
}

// AllEarned returns what each producer earns in every scenario under some elections; for
// a person of several operations, what it earns in all of them (EarnedAcross). Call
// release when done.
func (m Payments) AllEarned(elections []Election) (sums Earned, release func()) {
	var acquired [][]crop.Money
	for pool := range sums {
		if !m.usesPool(Pools[pool]) {
			continue
		}
		for range m.Producers {
			sums[pool] = append(sums[pool], m.Buffers.Zeros())
		}
		acquired = append(acquired, sums[pool]...)
	}
	m.addEarned(&sums, elections, m.poolsOf(elections), 1, 0)
	for j, all := range m.EarnedAcross {
		for pool, series := range all {
			if sums[pool] != nil {
				clear(sums[pool][j])
				copy(sums[pool][j], series)
			}
		}
	}
	return sums, func() { m.Buffers.Release(acquired...) }
}

// addEarned adds sign times what some elections pay each producer to dst, whose series
// begin at scenario first; pools are those of the elections (poolsOf).
func (m Payments) addEarned(dst *Earned, elections []Election, pools []int, sign float64, first int) {
	for i, e := range elections {
		for _, one := range m.shared[e] {
			for _, c := range one.claims {
				c.Claim.Add(dst[pools[i]][one.producer], sign*c.Share, first)
			}
		}
	}
}

// poolsOf returns the place in Pools of the limit that each election counts against.
func (m Payments) poolsOf(elections []Election) []int {
	var pools []int
	for _, e := range elections {
		pools = append(pools, slices.Index(Pools[:], m.Pool(e.Commodity)))
	}
	return pools
}

// usesPool reports whether any payment counts against a limit pool.
func (m Payments) usesPool(pool program.LimitPool) bool {
	for _, all := range m.EarnedAcross {
		if all[slices.Index(Pools[:], pool)] != nil {
			return true
		}
	}
	for e := range m.shared {
		if m.Pool(e.Commodity) == pool {
			return true
		}
	}
	return false
}

// Mean returns the mean of a sum of claims over all scenarios, USD.
func (m Payments) Mean(all payoff.Claims) (sum crop.Money) {
	for _, c := range all {
		sum += c.Share * c.Mean(m.Buffers)
	}
	return sum
}

// maximumOf returns a bound, USD, on what an election pays all producers together in any
// scenario.
func (m Payments) maximumOf(e Election) (most crop.Money) {
	for _, one := range m.shared[e] {
		most += one.claims.Most()
	}
	return most
}
