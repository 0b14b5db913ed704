package elect

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
)

// prepare finds whom each flip reaches.
func (p *paid) prepare(o *Operation) {
	n := len(o.Attribution.Recipients)
	p.sums, p.stale, p.tile = make([]crop.Money, n), make([]bool, n), o.newTile()
	reach := make([][]int, len(o.Places))
	for j, place := range o.Places {
		for _, one := range o.Attribution.Reach(place) {
			reach[j] = append(reach[j], one.Recipient)
		}
	}
	p.reached = make([][]int, len(o.Flips))
	for k, flip := range o.Flips {
		for _, c := range flip {
			for _, stake := range c.Stakes {
				p.reached[k] = append(p.reached[k], reach[stake.Producer]...)
			}
		}
		slices.Sort(p.reached[k])
		p.reached[k] = slices.Compact(p.reached[k])
	}
	p.change(o.Attribution.Order)
}

// change notes that some recipients are to be paid anew.
func (p *paid) change(recipients []int) {
	for _, i := range recipients {
		p.stale[i] = true
	}
}

// meanPaid returns the mean paid to all recipients together, USD after limits and
// sequestration, rounded to the cent in each scenario as it is paid.
func (o *Operation) meanPaid() (total crop.Money) {
	p := &o.paid
	if needed := o.reaching(p.stale); len(needed) > 0 {
		for i, stale := range p.stale {
			if stale {
				p.sums[i] = 0
			}
		}
		for first := 0; first < o.scenarios(); first += p.tile.length {
			o.payTile(first, needed)
		}
		clear(p.stale)
	}
	for _, sum := range p.sums {
		total += sum
	}
	return total / float64(o.scenarios())
}

// payTile adds what the stale recipients are paid in a tile to their sums; needed are they
// and all whose payments reach them.
func (o *Operation) payTile(first int, needed []int) {
	t := o.paid.tile
	var arrived [len(pools)][][]crop.Money
	for pool, byProducer := range o.Earned {
		if byProducer != nil {
			arrived[pool] = t.arrive(o, pool, first, needed)
		}
	}
	for _, i := range needed {
		if !o.paid.stale[i] {
			continue
		}
		clear(t.stays)
		for pool, byRecipient := range arrived {
			if byRecipient != nil {
				o.Attribution.AddStaying(pools[pool], i, t.stays, byRecipient[i])
			}
		}
		sum := 0.0
		for _, money := range t.stays {
			if money != 0 {
				sum += program.AfterSequestration(money, o.Withheld)
			}
		}
		o.paid.sums[i] += sum
	}
}

// reaching returns the recipients marked and those whose payments reach them, every entity
// before its owners.
func (o *Operation) reaching(marked []bool) (order []int) {
	reaches := slices.Clone(marked)
	for _, i := range slices.Backward(o.Attribution.Order) {
		for _, owner := range o.Attribution.Recipients[i].Owners {
			reaches[i] = reaches[i] || reaches[owner.Recipient]
		}
	}
	for _, i := range o.Attribution.Order {
		if reaches[i] {
			order = append(order, i)
		}
	}
	return order
}

// mostInTile is how many scenarios are followed at once, at most: series of all recipients
// then stay near the processor.
const mostInTile = 256

func (o *Operation) newTile() *tile {
	t := &tile{length: o.scenarios(), place: make([]int, len(o.Attribution.Recipients))}
	if t.length%mostInTile == 0 {
		t.length = mostInTile
	}
	series := func() (all [][]float64) {
		for range t.place {
			all = append(all, make([]float64, t.length))
		}
		return all
	}
	t.scenario = make([]crop.Money, len(t.place))
	t.ended, t.worth, t.within, t.stays = series(), series(), make([]crop.Money, t.length), make([]crop.Money, t.length)
	for pool, byProducer := range o.Earned {
		if byProducer != nil {
			t.arrived[pool] = series()
		}
	}
	for i := range t.place {
		t.place[i] = -1
	}
	for j, i := range o.Places {
		t.place[i] = j
	}
	return t
}

// arrive returns, by recipient of order, what arrives in the scenarios from first on.
func (t *tile) arrive(o *Operation, pool, first int, order []int) [][]crop.Money {
	arrived := t.arrived[pool]
	for _, i := range order {
		if j := t.place[i]; j >= 0 {
			copy(arrived[i], o.Earned[pool][j][first:])
		} else {
			clear(arrived[i])
		}
	}
	o.Attribution.Arrive(pools[pool], order, arrived, t.within)
	return arrived
}
