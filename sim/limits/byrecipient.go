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
	return m.attributed(elections)
}

// MeanAfterLimit returns the mean paid to all recipients together under some elections,
// USD after limits and sequestration.
func (m Payments) MeanAfterLimit(elections []Election) crop.Money {
	return m.ByRecipient(elections).Total
}

// PaidByScenario returns ByRecipient and what each recipient is paid in each scenario, USD
// after limits and sequestration: [recipient][scenario]. Call release when done.
func (m Payments) PaidByScenario(elections []Election) (means RecipientMeans, paid [][]crop.Money, release func()) {
	for range m.Attribution.Recipients {
		paid = append(paid, m.Buffers.Zeros())
	}
	means = m.attribute(m.earnersUnder(elections), paid)
	m.known.Of(keyOf(elections), func() RecipientMeans { return means })
	if m.neverLimited(elections) {
		means = m.bySharesAlone(elections)
	}
	return means, paid, func() { m.Buffers.Release(paid...) }
}

// attributed returns attribute for some elections, worked out once.
func (m Payments) attributed(elections []Election) RecipientMeans {
	return m.known.Of(keyOf(elections), func() RecipientMeans { return m.attribute(m.earnersUnder(elections), nil) })
}

// earners are producers who earn something, and how much.
type earners struct {
	producers []int
	pools     [len(Pools)]bool // those that what they earn counts against
	fill      filler
}

// earnersUnder returns those of some elections.
func (m Payments) earnersUnder(elections []Election) earners {
	pools := m.poolsOf(elections)
	return earners{m.sharing(elections), used(pools), func(dst *Earned, first int) { m.addEarned(dst, elections, pools, 1, first) }}
}

// sharing returns the producers who have a share in some elections.
func (m Payments) sharing(elections []Election) (producers []int) {
	for _, e := range elections {
		for _, one := range m.shared[e] {
			producers = append(producers, one.producer)
		}
	}
	slices.Sort(producers)
	return slices.Compact(producers)
}

// used tells which pools are among some.
func used(pools []int) (all [len(Pools)]bool) {
	for _, pool := range pools {
		all[pool] = true
	}
	return all
}

// attribute follows what producers earn to the recipients, scenario by scenario; where paid
// is not nil, it fills [recipient][scenario] with what is paid, but for those whom nothing
// reaches. Money is before sequestration until the last step, whatever the law's order of
// reductions: LimitRule.Reduced has scaled the limits to that.
func (m Payments) attribute(by earners, paid [][]crop.Money) RecipientMeans {
	t := m.newTracer(by.producers, by.pools)
	return t.means(by.fill, t.order, paid)
}

// neverLimited reports that no limit can be reached: in each pool the maxima of all
// claims, of all producers together, sum to less than the smallest limit left to any
// recipient, and nobody is barred for income.
func (m Payments) neverLimited(elections []Election) bool {
	var most [len(Pools)]crop.Money
	for i, pool := range m.poolsOf(elections) {
		for _, one := range m.shared[elections[i]] {
			most[pool] += one.claims.Most()
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
		for _, one := range m.shared[elections[i]] {
			for _, c := range one.claims {
				earned[pool][m.Places[one.producer]] += c.Share * c.Mean(m.Buffers)
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
