package elect

import (
	"gonum.org/v1/gonum/floats"

	"fencerow/program"
	"fencerow/program/crop"
)

// start sets every flip to 0.
func (o *Operation) start() {
	if o.at == nil {
		o.at = make([]float64, len(o.Flips))
		o.routes.prepare(o.Flips)
		o.paid.prepare(o)
	}
}

// shift changes flip k by an amount: 1 flips it, -1 takes that back.
func (o *Operation) shift(k int, amount float64) {
	for _, s := range o.routes.byFlip[k] {
		r := &o.routes.all[s.route]
		floats.AddScaled(o.Earned[r.pool][r.producer], amount*s.share, r.series)
	}
	o.at[k] += amount
	o.paid.change(o.paid.reached[k])
}

// flip changes flip k from 0 to 1 or from 1 to 0.
func (o *Operation) flip(k int) { o.shift(k, 1-2*o.at[k]) }

// set changes every flip to x, each 0 to 1.
func (o *Operation) set(x []float64) {
	o.routes.clear()
	for k := range o.Flips {
		if change := x[k] - o.at[k]; change != 0 {
			o.routes.move(k, change)
			o.paid.change(o.paid.reached[k])
		}
		o.at[k] = x[k]
	}
	for _, r := range o.routes.all {
		if r.moved != 0 {
			floats.AddScaled(o.Earned[r.pool][r.producer], r.moved, r.series)
		}
	}
}

// flipped reports, by flip, whether it is made.
func (o *Operation) flipped() []bool {
	all := make([]bool, len(o.at))
	for k, x := range o.at {
		all[k] = x > half
	}
	return all
}

const half = 0.5

// supergradient returns the mean paid at the present flips x and fills dst with a
// supergradient of it: USD by flip, for a whole flip. Both are without the rounding to
// the cent; off is filled with what a flip may bring beyond that where its stakes are off.
// The mean is concave in x, because a limit takes a minimum and attribution goes by fixed
// shares. Hence
//
//	mean at any x' <= mean at x + sum over k of dst[k] (x'[k] - x[k])
func (o *Operation) supergradient(dst, off []float64) (mean crop.Money) {
	t := o.paid.tile
	for pool, byProducer := range o.Earned {
		for len(o.weights[pool]) < len(byProducer) {
			o.weights[pool] = append(o.weights[pool], make([]crop.Share, o.scenarios()))
		}
		if byProducer == nil {
			continue
		}
		for first := 0; first < o.scenarios(); first += t.length {
			arrived := t.arrive(o, pool, first, o.Attribution.Order)
			for _, i := range o.Attribution.Order {
				clear(t.ended[i])
				o.Attribution.AddStaying(pools[pool], i, t.ended[i], arrived[i])
			}
			for s := range t.within {
				for i, ended := range t.ended { // recipients first: another order of adding up sends the ascent another way
					t.scenario[i] = ended[s]
				}
				mean += floats.Sum(t.scenario)
			}
			o.Attribution.FillWorth(pools[pool], o.Attribution.Order, arrived, t.worth)
			for j, place := range o.Places {
				copy(o.weights[pool][j][first:], t.worth[place])
			}
		}
	}
	net := (1 - o.Withheld) / float64(o.scenarios())
	o.Parallel(len(o.routes.all), func(i int) {
		r := &o.routes.all[i]
		weights := o.weights[r.pool][r.producer]
		r.dot = floats.Dot(weights, r.series)
		if r.off {
			r.weight = floats.Sum(weights)
		}
	})
	for k, stakes := range o.routes.byFlip {
		dst[k], off[k] = 0, 0
		for _, s := range stakes {
			r := &o.routes.all[s.route]
			dst[k] += net * s.share * r.dot
			off[k] += net * s.off * r.weight
		}
	}
	return net * mean
}

// roundingSlack returns how far meanPaid may exceed a cutting plane, USD, because it
// rounds to the cent in each scenario for each recipient and a plane does not. A cent for
// each recipient covers that and floating-point error.
func (o *Operation) roundingSlack() crop.Money {
	return program.OneCent * float64(len(o.Attribution.Recipients))
}
