package limits

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/scenario"
)

// tracer follows one tile of scenarios from the producers to the recipients. Its slices
// are scratch memory, used again for every scenario.
type tracer struct {
	Rules
	earned     Earned // of one tile
	first      int    // the tile's first scenario
	interest   [][]crop.Share
	smallest   [len(Pools)]crop.Money // limit left to any recipient, USD before sequestration
	barred     bool                   // some recipient is, for income
	own        []crop.Money           // by recipient: earned itself
	arrived    []crop.Money           // by recipient: earned and through entities
	ended      []crop.Money           // by recipient: stays with it, of one pool
	afterLimit []crop.Money           // by recipient: stays with it, of all pools
	filled     []bool                 // by recipient: some limit of it
	tile       []crop.Money           // by scenario
}

func (m Payments) newTracer() *tracer {
	n, tile := len(m.Attribution.Recipients), m.Buffers.Size.Tile()
	t := &tracer{Rules: m.Rules, arrived: make([]float64, n), ended: make([]float64, n), own: make([]float64, n), afterLimit: make([]float64, n), filled: make([]bool, n), tile: make([]float64, tile)}
	for pool := range t.earned {
		t.smallest[pool] = math.Inf(1)
		for _, r := range m.Attribution.Recipients {
			t.barred = t.barred || r.Barred
			t.smallest[pool] = min(t.smallest[pool], r.BindsAt(Pools[pool]))
		}
		if !m.usesPool(Pools[pool]) {
			continue
		}
		for range m.Producers {
			t.earned[pool] = append(t.earned[pool], make([]float64, tile))
		}
	}
	for _, place := range m.Places {
		t.interest = append(t.interest, m.Attribution.Behind(place)) // [producer][recipient]
	}
	return t
}

// unlimited reports that no limit is reached in any scenario of the tile: in each pool
// all producers together earn less than the smallest limit left to any recipient.
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
			if sum >= t.smallest[pool] && sum > 0 {
				return false
			}
		}
	}
	return true
}

// attributeUnlimited adds the tile to out where no limit is reached in it.
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
		for i, money := range t.tile {
			out.add(k, t.first+i, program.AfterSequestration(money, t.Sequestration.Value))
		}
	}
	for pool, byProducer := range t.earned {
		if byProducer == nil {
			continue
		}
		clear(t.own)
		for j, place := range t.Places {
			t.own[place] = scenario.SumOf(byProducer[j])
		}
		t.Attribution.Trace(Pools[pool], t.own, t.arrived, t.ended)
		scenario.AddScaled(out.withinLimit, 1, t.arrived)
	}
}

// attributeLimited adds the tile to out, each scenario by itself.
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
			for j, place := range t.Places {
				t.own[place] = byProducer[j][i]
			}
			t.Attribution.Trace(Pools[pool], t.own, t.arrived, t.ended)
			t.addLimited(out, Pools[pool])
		}
		for k := range t.afterLimit {
			out.add(k, t.first+i, program.AfterSequestration(t.afterLimit[k], t.Sequestration.Value))
			if t.filled[k] {
				out.AtLimit[k]++
			}
		}
	}
}

// addAttributed adds what the tile brings to each recipient by shares alone.
func (t *tracer) addAttributed(out *RecipientMeans) {
	for _, byProducer := range t.earned {
		for j, series := range byProducer {
			scenario.AddScaled(out.Attributed, scenario.SumOf(series), t.interest[j])
		}
	}
}

// addLimited adds what Trace found for one scenario and pool.
func (t *tracer) addLimited(out *RecipientMeans, pool program.LimitPool) {
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

// add adds what one recipient is paid in one scenario.
func (r *RecipientMeans) add(recipient, scenario int, money crop.Money) {
	r.Paid[recipient] += money
	if r.byScenario != nil {
		r.byScenario[recipient][scenario] = money
	}
}
