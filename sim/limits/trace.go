package limits

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/scenario"
)

// Reach is what reaches each recipient over all draws.
type Reach struct {
	Before    []float64 // average attributed to it, before any limit
	After     []float64 // average paid, after limits and sequestration
	within    []float64 // average that its limits leave, in dollars before sequestration
	Withheld  []float64 // average that arrived and its limit kept back, in dollars before sequestration
	AtLimit   []float64 // share of outcomes in which a limit of it is filled
	Total     float64   // average paid to all together
	exceeding bool      // some limit kept something back in some outcome

	paid [][]crop.Money // [recipient][draw], after limits and sequestration; nil: not asked for
}

// tracer follows some draws at a time.
type tracer struct {
	Rules
	earned  earned
	behind  [][]crop.Share // [producer][recipient]
	rooms   [len(Pools)]float64
	barred  bool
	arrived []crop.Money // by recipient
	ended   []crop.Money
	own     []crop.Money
	kept    []crop.Money
	filled  []bool
	tile    []crop.Money
	from    int // first of the draws that are followed
}

func (m Payments) newTracer() *tracer {
	n, tile := len(m.Attribution.Recipients), m.Buffers.Size.Tile()
	t := &tracer{Rules: m.Rules, arrived: make([]float64, n), ended: make([]float64, n), own: make([]float64, n), kept: make([]float64, n), filled: make([]bool, n), tile: make([]float64, tile)}
	for pot := range t.earned {
		t.rooms[pot] = math.Inf(1)
		for _, r := range m.Attribution.Recipients {
			t.barred = t.barred || r.Barred
			t.rooms[pot] = min(t.rooms[pot], r.BindsAt(Pools[pot]))
		}
		if !m.uses(Pools[pot]) {
			continue
		}
		for range m.Producers {
			t.earned[pot] = append(t.earned[pot], make([]float64, tile))
		}
	}
	for _, at := range m.Places {
		t.behind = append(t.behind, m.Attribution.Behind(at))
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
	for pot, byProducer := range t.earned {
		clear(t.tile)
		for _, series := range byProducer {
			scenario.AddScaled(t.tile, 1, series)
		}
		for _, sum := range t.tile {
			if sum >= t.rooms[pot] && sum > 0 {
				return false
			}
		}
	}
	return true
}

// pass is trace where no limit is reached: shares alone decide.
func (t *tracer) pass(out *Reach) {
	t.attribute(out)
	for k := range out.After {
		clear(t.tile)
		for _, byProducer := range t.earned {
			for j, series := range byProducer {
				if share := t.behind[j][k]; share != 0 {
					scenario.AddScaled(t.tile, share, series)
				}
			}
		}
		for i, kept := range t.tile {
			out.pay(k, t.from+i, program.AfterSequestration(kept, t.Sequestration.Value))
		}
	}
	for pot, byProducer := range t.earned {
		if byProducer == nil {
			continue
		}
		clear(t.own)
		for j, at := range t.Places {
			t.own[at] = scenario.SumOf(byProducer[j])
		}
		t.Attribution.Trace(Pools[pot], t.own, t.arrived, t.ended) // of sums: all is in proportion
		scenario.AddScaled(out.within, 1, t.arrived)
	}
}

// trace follows each draw by itself.
func (t *tracer) trace(out *Reach) {
	t.attribute(out)
	for i := range t.tile {
		clear(t.kept)
		clear(t.filled)
		for pot, byProducer := range t.earned {
			if byProducer == nil {
				continue
			}
			clear(t.own)
			for j, at := range t.Places {
				t.own[at] = byProducer[j][i]
			}
			t.Attribution.Trace(Pools[pot], t.own, t.arrived, t.ended)
			t.limit(out, Pools[pot])
		}
		for k := range t.kept {
			out.pay(k, t.from+i, program.AfterSequestration(t.kept[k], t.Sequestration.Value))
			if t.filled[k] {
				out.AtLimit[k]++
			}
		}
	}
}

// Pay notes what one recipient is paid in one draw.
func (r *Reach) pay(recipient, draw int, money crop.Money) {
	r.After[recipient] += money
	if r.paid != nil {
		r.paid[recipient][draw] = money
	}
}

// Limit notes what arrived in one draw under one limit.
func (t *tracer) limit(out *Reach, pot program.Pot) {
	for k := range t.kept {
		t.kept[k] += t.ended[k]
		out.within[k] += t.Attribution.Recipients[k].Within(pot, t.arrived[k])
		t.filled[k] = t.filled[k] || t.Attribution.LimitReached(pot, k, t.arrived[k])
		if over := t.Attribution.Over(pot, k, t.arrived[k]); over > 0 {
			out.Withheld[k] += over
			out.exceeding = true
		}
	}
}

// attribute adds what stands behind each recipient before any limit, by shares
// alone.
func (t *tracer) attribute(out *Reach) {
	for _, byProducer := range t.earned {
		for j, series := range byProducer {
			scenario.AddScaled(out.Before, scenario.SumOf(series), t.behind[j])
		}
	}
}
