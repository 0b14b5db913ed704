package answer

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// pots are the limits that payments count against.
var pots = [...]program.Pot{program.General, program.Peanuts}

// earned is what each producer earns in some draws, by pot.
type earned [len(pots)][][]crop.Money // [pot][producer][draw]

// filler sets what the producers earn in draws from, from+1 ...
type filler func(e *earned, from int)

// reach is what reaches each recipient over all draws.
type reach struct {
	before    []float64 // average attributed to it, before any limit
	after     []float64 // average paid, after limits and sequestration
	within    []float64 // average that its limits leave, in dollars before sequestration
	withheld  []float64 // average that arrived and its limit kept back, in dollars before sequestration
	atLimit   []float64 // share of outcomes in which a limit of it is filled
	total     float64   // average paid to all together
	exceeding bool      // some limit kept something back in some outcome

	paid [][]crop.Money // [recipient][draw], after limits and sequestration; nil: not asked for
}

// reach follows what the producers earn to the persons behind them, draw by
// draw. Limits stand in dollars before sequestration in either order of the two
// (program.LimitRule), so that sequestration is the last step.
func (m purse) reach(fill filler) reach {
	return m.follow(fill, nil)
}

// follow is reach that also fills paid, where it is not nil.
func (m purse) follow(fill filler, paid [][]crop.Money) reach {
	n := len(m.attribution.Recipients)
	out := reach{before: make([]float64, n), after: make([]float64, n), within: make([]float64, n), withheld: make([]float64, n), atLimit: make([]float64, n), paid: paid}
	t := m.newTracer()
	for from := 0; from < m.buffers.draws.N(); from += m.buffers.draws.Tile() {
		fill(&t.earned, from)
		t.from = from
		if t.unlimited() {
			t.pass(&out)
		} else {
			t.trace(&out)
		}
	}
	for k := range out.after {
		for _, sums := range [][]float64{out.before, out.after, out.within, out.withheld, out.atLimit} {
			sums[k] /= float64(m.buffers.draws.N())
		}
		out.total += out.after[k]
	}
	return out
}

// neverLimited reports whether no limit can be reached in any draw: all that the
// picks can pay at most, to all producers together, is less than the least that
// any recipient has room for.
func (m purse) neverLimited(picks []pick) bool {
	var most [len(pots)]crop.Money
	for i, at := range m.potsOf(picks) {
		for _, mine := range m.flows[picks[i]] {
			for _, p := range mine {
				most[at] += p.share * p.most
			}
		}
	}
	for _, r := range m.attribution.Recipients {
		for at, pot := range pots {
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
func (m purse) byShares(picks []pick) reach {
	n := len(m.attribution.Recipients)
	out := reach{before: make([]float64, n), after: make([]float64, n), within: make([]float64, n), withheld: make([]float64, n), atLimit: make([]float64, n)}
	var earned [len(pots)][]crop.Money // by recipient
	for at := range earned {
		earned[at] = make([]crop.Money, n)
	}
	for i, at := range m.potsOf(picks) {
		for j, mine := range m.flows[picks[i]] {
			for _, p := range mine {
				earned[at][m.places[j]] += p.share * p.mean(m.buffers)
			}
		}
	}
	arrived, ended := make([]crop.Money, n), make([]crop.Money, n)
	for at, own := range earned {
		m.attribution.Trace(pots[at], own, arrived, ended)
		addScaled(out.before, 1, ended)
		addScaled(out.within, 1, arrived)
	}
	for k, mean := range out.before {
		out.after[k] = mean * (1 - m.sequestration.Value)
		out.total += out.after[k]
	}
	return out
}

// tracer follows some draws at a time.
type tracer struct {
	payer
	earned  earned
	behind  [][]crop.Share // [producer][recipient]
	rooms   [len(pots)]float64
	barred  bool
	arrived []crop.Money // by recipient
	ended   []crop.Money
	own     []crop.Money
	kept    []crop.Money
	filled  []bool
	tile    []crop.Money
	from    int // first of the draws that are followed
}

func (m purse) newTracer() *tracer {
	n, tile := len(m.attribution.Recipients), m.buffers.draws.Tile()
	t := &tracer{payer: m.payer, arrived: make([]float64, n), ended: make([]float64, n), own: make([]float64, n), kept: make([]float64, n), filled: make([]bool, n), tile: make([]float64, tile)}
	for pot := range t.earned {
		t.rooms[pot] = math.Inf(1)
		for _, r := range m.attribution.Recipients {
			t.barred = t.barred || r.Barred
			t.rooms[pot] = min(t.rooms[pot], r.BindsAt(pots[pot]))
		}
		if !m.uses(pots[pot]) {
			continue
		}
		for range m.producers {
			t.earned[pot] = append(t.earned[pot], make([]float64, tile))
		}
	}
	for _, at := range m.places {
		t.behind = append(t.behind, m.attribution.Behind(at))
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
			addScaled(t.tile, 1, series)
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
func (t *tracer) pass(out *reach) {
	t.attribute(out)
	for k := range out.after {
		clear(t.tile)
		for _, byProducer := range t.earned {
			for j, series := range byProducer {
				if share := t.behind[j][k]; share != 0 {
					addScaled(t.tile, share, series)
				}
			}
		}
		for i, kept := range t.tile {
			out.pay(k, t.from+i, program.AfterSequestration(kept, t.sequestration.Value))
		}
	}
	for pot, byProducer := range t.earned {
		if byProducer == nil {
			continue
		}
		clear(t.own)
		for j, at := range t.places {
			t.own[at] = sumOf(byProducer[j])
		}
		t.attribution.Trace(pots[pot], t.own, t.arrived, t.ended) // of sums: all is in proportion
		addScaled(out.within, 1, t.arrived)
	}
}

// trace follows each draw by itself.
func (t *tracer) trace(out *reach) {
	t.attribute(out)
	for i := range t.tile {
		clear(t.kept)
		clear(t.filled)
		for pot, byProducer := range t.earned {
			if byProducer == nil {
				continue
			}
			clear(t.own)
			for j, at := range t.places {
				t.own[at] = byProducer[j][i]
			}
			t.attribution.Trace(pots[pot], t.own, t.arrived, t.ended)
			t.limit(out, pots[pot])
		}
		for k := range t.kept {
			out.pay(k, t.from+i, program.AfterSequestration(t.kept[k], t.sequestration.Value))
			if t.filled[k] {
				out.atLimit[k]++
			}
		}
	}
}

// pay notes what one recipient is paid in one draw.
func (r *reach) pay(recipient, draw int, money crop.Money) {
	r.after[recipient] += money
	if r.paid != nil {
		r.paid[recipient][draw] = money
	}
}

// limit notes what arrived in one draw under one limit.
func (t *tracer) limit(out *reach, pot program.Pot) {
	for k := range t.kept {
		t.kept[k] += t.ended[k]
		out.within[k] += t.attribution.Recipients[k].Within(pot, t.arrived[k])
		t.filled[k] = t.filled[k] || t.attribution.LimitReached(pot, k, t.arrived[k])
		if over := t.attribution.Over(pot, k, t.arrived[k]); over > 0 {
			out.withheld[k] += over
			out.exceeding = true
		}
	}
}

// attribute adds what stands behind each recipient before any limit, by shares
// alone.
func (t *tracer) attribute(out *reach) {
	for _, byProducer := range t.earned {
		for j, series := range byProducer {
			addScaled(out.before, sumOf(series), t.behind[j])
		}
	}
}

// sumOf adds up a few draws.
func sumOf(series []float64) float64 { return odds.Mean(series) * float64(len(series)) }

// zero clears all.
func (e *earned) zero() {
	for _, byProducer := range e {
		for _, series := range byProducer {
			clear(series)
		}
	}
}
