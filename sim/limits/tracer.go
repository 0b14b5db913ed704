package limits

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/scenario"
)

// RecipientMeans is what reaches each recipient over all draws.
type RecipientMeans struct {
	Attributed    []float64 // average attributed to it, before any limit
	Paid          []float64 // average paid, after limits and sequestration
	withinLimit   []float64 // average that its limits leave, in dollars before sequestration
	Withheld      []float64 // average that arrived and its limit kept back, in dollars before sequestration
	AtLimit       []float64 // share of outcomes in which a limit of it is filled
	Total         float64   // average paid to all together
	limitExceeded bool      // some limit kept something back in some outcome

	byScenario [][]crop.Money // [recipient][draw], after limits and sequestration; nil: not asked for
}

// tracer follows some draws at a time.
type tracer struct {
	Rules
	earned     Earned
	interest   [][]crop.Share // [producer][recipient]
	rooms      [len(Pools)]float64
	barred     bool
	arrived    []crop.Money // by recipient
	ended      []crop.Money
	own        []crop.Money
	afterLimit []crop.Money
	filled     []bool
	tile       []crop.Money
	first      int // first of the draws that are followed
}

func (m Payments) newTracer() *tracer {
	n, tile := len(m.Attribution.Recipients), m.Buffers.Size.Tile()
	t := &tracer{Rules: m.Rules, arrived: make([]float64, n), ended: make([]float64, n), own: make([]float64, n), afterLimit: make([]float64, n), filled: make([]bool, n), tile: make([]float64, tile)}
	for pool := range t.earned {
		t.rooms[pool] = math.Inf(1)
		for _, r := range m.Attribution.Recipients {
			t.barred = t.barred || r.Barred
			t.rooms[pool] = min(t.rooms[pool], r.BindsAt(Pools[pool]))
		}
		if !m.usesPool(Pools[pool]) {
			continue
		}
		for range m.Producers {
			t.earned[pool] = append(t.earned[pool], make([]float64, tile))
		}
	}
	for _, at := range m.Places {
		t.interest = append(t.interest, m.Attribution.Behind(at))
	}
	return t
}

// unlimited reports whether no limit is reached in any of the draws, whoever is
// paid: all producers together earn less than the least that any recipient has
// room for.
func (t *tracer) unlimited() bool {
	if t.barred {
		return false
	}
	for pool, byProducer := range t.earned {
		clear(t.tile)
		for _, series := range byProducer {
			scenario.AddScaled(t.tile, 1, series)
		}
		for _, sum := range t.tile {
			if sum >= t.rooms[pool] && sum > 0 {
				return false
			}
		}
	}
	return true
}

// attributeUnlimited is trace where no limit is reached: shares alone decide.
func (t *tracer) attributeUnlimited(out *RecipientMeans) {
	t.addAttributed(out)
	for k := range out.Paid {
		clear(t.tile)
		for _, byProducer := range t.earned {
			for j, series := range byProducer {
				if share := t.interest[j][k]; share != 0 {
					scenario.AddScaled(t.tile, share, series)
				}
			}
		}
		for i, kept := range t.tile {
			out.add(k, t.first+i, program.AfterSequestration(kept, t.Sequestration.Value))
		}
	}
	for pool, byProducer := range t.earned {
		if byProducer == nil {
			continue
		}
		clear(t.own)
		for j, at := range t.Places {
			t.own[at] = scenario.SumOf(byProducer[j])
		}
		t.Attribution.Trace(Pools[pool], t.own, t.arrived, t.ended) // of sums: all is in proportion
		scenario.AddScaled(out.withinLimit, 1, t.arrived)
	}
}

// attributeLimited follows each draw by itself.
func (t *tracer) attributeLimited(out *RecipientMeans) {
	t.addAttributed(out)
	for i := range t.tile {
		clear(t.afterLimit)
		clear(t.filled)
		for pool, byProducer := range t.earned {
			if byProducer == nil {
				continue
			}
			clear(t.own)
			for j, at := range t.Places {
				t.own[at] = byProducer[j][i]
			}
			t.Attribution.Trace(Pools[pool], t.own, t.arrived, t.ended)
			t.addWithinLimit(out, Pools[pool])
		}
		for k := range t.afterLimit {
			out.add(k, t.first+i, program.AfterSequestration(t.afterLimit[k], t.Sequestration.Value))
			if t.filled[k] {
				out.AtLimit[k]++
			}
		}
	}
}

// Pay notes what one recipient is paid in one draw.
func (r *RecipientMeans) add(recipient, draw int, money crop.Money) {
	r.Paid[recipient] += money
	if r.byScenario != nil {
		r.byScenario[recipient][draw] = money
	}
}

// Limit notes what arrived in one draw under one limit.
func (t *tracer) addWithinLimit(out *RecipientMeans, pool program.LimitPool) {
	for k := range t.afterLimit {
		t.afterLimit[k] += t.ended[k]
		out.withinLimit[k] += t.Attribution.Recipients[k].Within(pool, t.arrived[k])
		t.filled[k] = t.filled[k] || t.Attribution.LimitReached(pool, k, t.arrived[k])
		if over := t.Attribution.Over(pool, k, t.arrived[k]); over > 0 {
			out.Withheld[k] += over
			out.limitExceeded = true
		}
	}
}

// addAttributed adds what stands behind each recipient before any limit, by shares
// alone.
func (t *tracer) addAttributed(out *RecipientMeans) {
	for _, byProducer := range t.earned {
		for j, series := range byProducer {
			scenario.AddScaled(out.Attributed, scenario.SumOf(series), t.interest[j])
		}
	}
}
