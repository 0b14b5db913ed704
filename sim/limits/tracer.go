package limits

import (
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
	"fencerow/sim/scenario"
)

// tracer follows one tile of scenarios after the other from the producers who may earn
// something to the recipients whom that reaches. Its series are scratch memory, used again
// for every tile.
type tracer struct {
	Rules
	size      odds.Scenarios
	producers []int  // who may earn something
	order     []int  // recipients whom that reaches, every entity before its owners
	earned    Earned // of one tile; nil series for all other producers
	arrived   Earned // the same by recipient: a producer's series is that of earned

	within     []crop.Money // by scenario: what an entity passes on
	afterLimit []crop.Money // by scenario: stays with a recipient, of all pools
	filled     []bool       // by scenario: some limit of it
}

// newTracer returns a tracer for what some producers earn; pools says of which limit
// pools.
func (m Payments) newTracer(producers []int, pools [len(Pools)]bool) *tracer {
	tile := m.Buffers.Size.Tile()
	series := func() []crop.Money { return make([]crop.Money, tile) }
	t := &tracer{Rules: m.Rules, size: m.Buffers.Size, producers: producers, order: m.reachedBy(producers), within: series(), afterLimit: series(), filled: make([]bool, tile)}
	for pool, used := range pools {
		if !used {
			continue
		}
		t.earned[pool], t.arrived[pool] = make([][]crop.Money, len(m.Producers)), make([][]crop.Money, len(m.Attribution.Recipients))
		for _, j := range producers {
			t.earned[pool][j] = series()
			t.arrived[pool][m.Places[j]] = t.earned[pool][j]
		}
		for _, k := range t.order {
			if t.arrived[pool][k] == nil {
				t.arrived[pool][k] = series()
			}
		}
	}
	return t
}

// means adds up all tiles, for the recipients counted.
func (t *tracer) means(fill filler, counted []int, paid [][]crop.Money) RecipientMeans {
	out := newRecipientMeans(len(t.Attribution.Recipients))
	out.byScenario = paid
	n, tile := t.size.N(), t.size.Tile()
	for first := 0; first < n; first += tile {
		t.fill(fill, first)
		t.addTo(&out, first, counted)
	}
	for k := range out.Paid {
		for _, sums := range [][]float64{out.Attributed, out.Paid, out.withinLimit, out.Withheld, out.AtLimit} {
			sums[k] /= float64(n)
		}
		out.Total += out.Paid[k]
	}
	out.byScenario = nil
	return out
}

// fill sets earned to one tile, whatever the recipients have of the last one.
func (t *tracer) fill(by filler, first int) {
	for _, byRecipient := range t.arrived {
		for _, k := range t.order {
			if byRecipient != nil {
				clear(byRecipient[k])
			}
		}
	}
	by(&t.earned, first)
}

// arrive adds what reaches recipients through entities.
func (t *tracer) arrive() {
	for pool, byRecipient := range t.arrived {
		if byRecipient != nil {
			t.Attribution.Arrive(Pools[pool], t.order, byRecipient, t.within)
		}
	}
}

// exceeded reports whether a limit cuts something in the tile. It ends arrive's work: earned
// is no more what producers earn.
func (t *tracer) exceeded() bool {
	t.arrive()
	for pool, byRecipient := range t.arrived {
		if byRecipient == nil {
			continue
		}
		for _, k := range t.order {
			if t.Attribution.Over(Pools[pool], k, highest(byRecipient[k])) > 0 {
				return true
			}
		}
	}
	return false
}

// addTo adds the tile to out, for the recipients counted.
func (t *tracer) addTo(out *RecipientMeans, first int, counted []int) {
	t.addAttributed(out)
	t.arrive()
	for _, k := range counted {
		clear(t.afterLimit)
		clear(t.filled)
		for pool, byRecipient := range t.arrived {
			if byRecipient != nil {
				t.addPool(out, Pools[pool], k, byRecipient[k])
			}
		}
		out.add(t, k, first)
	}
}

// addAttributed adds what the tile brings to each recipient by shares alone.
func (t *tracer) addAttributed(out *RecipientMeans) {
	for _, byProducer := range t.earned {
		for _, j := range t.producers {
			if byProducer == nil {
				continue
			}
			sum := scenario.SumOf(byProducer[j])
			for _, one := range t.reach[j] {
				out.Attributed[one.Recipient] += sum * one.Share
			}
		}
	}
}

// addPool adds what arrived at recipient k, of one pool, to afterLimit and filled, and what
// its limit makes of that to out. Most tiles reach no limit.
func (t *tracer) addPool(out *RecipientMeans, pool program.LimitPool, k int, arrived []crop.Money) {
	most := highest(arrived)
	r := &t.Attribution.Recipients[k]
	if most == 0 || r.Barred {
		return
	}
	t.Attribution.AddStaying(pool, k, t.afterLimit, arrived)
	bindsAt, room := r.BindsAt(pool), r.Room(pool)
	if most < bindsAt {
		out.withinLimit[k] += scenario.SumOf(arrived)
		return
	}
	var within, withheld crop.Money
	for i, money := range arrived {
		left := min(money, room)
		within += left
		if money >= bindsAt && money > 0 {
			t.filled[i] = true
			withheld += money - left + max(0, left*r.Rest-r.OthersRoom(pool))
		}
	}
	out.withinLimit[k] += within
	out.Withheld[k] += withheld
	out.limitExceeded = out.limitExceeded || withheld > 0
}

// add adds what recipient k is paid in the tile.
func (r *RecipientMeans) add(t *tracer, k, first int) {
	for i, money := range t.afterLimit {
		paid := program.AfterSequestration(money, t.Sequestration.Value)
		r.Paid[k] += paid
		t.afterLimit[i] = paid
		if t.filled[i] {
			r.AtLimit[k]++
		}
	}
	if r.byScenario != nil {
		copy(r.byScenario[k][first:], t.afterLimit)
	}
}

// highest returns the highest of a series, 0 or more.
func highest(series []crop.Money) (most crop.Money) {
	for _, money := range series {
		most = max(most, money)
	}
	return most
}
