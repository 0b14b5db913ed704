package elect

import (
	"gonum.org/v1/gonum/floats"

	"fencerow/program"
	"fencerow/program/crop"
)

// pools are the limit pools that payments count against.
var pools = [...]program.LimitPool{program.GeneralPool, program.PeanutPool}

// Earned is what each producer earns, USD after share, before limits and sequestration:
// [pool][producer][scenario]. A pool that nothing counts against is nil.
type Earned [len(pools)][][]crop.Money

// Operation is a choice of elections to be optimized: what producers earn under the
// elections at the start, and the flips that change some of them. Its methods overwrite
// Earned. It is not safe for concurrent use.
type Operation struct {
	Attribution program.Attribution
	Places      []int      // place among Attribution.Recipients, by producer
	Withheld    crop.Share // by sequestration, 0 to 1
	Earned      Earned
	Flips       []Flip
	Parallel    func(n int, do func(i int)) // calls do for 0 to n-1, in any order, and waits

	at      []float64 // by flip: 0 as at the start, 1 flipped, between them mixed
	weights Earned    // marginal worth of a dollar earned; scratch memory of supergradient
}

// Flip is what a change of elections adds to Earned: one commodity of one farm, or several
// together, go to their other program.
type Flip []Column

// Column is one series of payments and the producers who have a share in it.
type Column struct {
	Series []crop.Money // USD by scenario
	Stakes []Stake
}

// Stake is one producer's share of a column, and the limit pool it counts against (place
// in Earned). The share is negative for payments that end with the flip.
type Stake struct {
	Pool, Producer int
	Share          crop.Share
}

// start sets every flip to 0.
func (o *Operation) start() {
	if o.at == nil {
		o.at = make([]float64, len(o.Flips))
	}
}

// scenarios returns their number.
func (o *Operation) scenarios() int {
	for _, byProducer := range o.Earned {
		if len(byProducer) > 0 {
			return len(byProducer[0])
		}
	}
	return 0
}

// shift changes flip k by an amount: 1 flips it, -1 takes that back.
func (o *Operation) shift(k int, amount float64) {
	for _, c := range o.Flips[k] {
		for _, stake := range c.Stakes {
			floats.AddScaled(o.Earned[stake.Pool][stake.Producer], amount*stake.Share, c.Series)
		}
	}
	o.at[k] += amount
}

// flip changes flip k from 0 to 1 or from 1 to 0.
func (o *Operation) flip(k int) { o.shift(k, 1-2*o.at[k]) }

// set changes every flip to x, each 0 to 1.
func (o *Operation) set(x []float64) {
	for k := range o.Flips {
		if change := x[k] - o.at[k]; change != 0 {
			o.shift(k, change)
		}
		o.at[k] = x[k] // exactly, without the rounding of shift
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

// meanPaid returns the mean paid to all recipients together, USD after limits and
// sequestration, rounded to the cent in each scenario as it is paid.
func (o *Operation) meanPaid() (total crop.Money) {
	n := len(o.Attribution.Recipients)
	own, arrived, ended, afterLimit := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n)
	for s := range o.scenarios() {
		clear(afterLimit)
		for pool, byProducer := range o.Earned {
			if byProducer == nil {
				continue
			}
			o.own(own, byProducer, s)
			o.Attribution.Trace(pools[pool], own, arrived, ended)
			for i, money := range ended {
				afterLimit[i] += money
			}
		}
		for _, money := range afterLimit {
			if money != 0 {
				total += program.AfterSequestration(money, o.Withheld)
			}
		}
	}
	return total / float64(o.scenarios())
}

// own fills dst with what each recipient earns itself in one scenario.
func (o *Operation) own(dst []crop.Money, byProducer [][]crop.Money, scenario int) {
	for j, place := range o.Places {
		dst[place] = byProducer[j][scenario]
	}
}

// supergradient returns the mean paid at the present flips x and fills dst with a
// supergradient of it: USD by flip, for a whole flip. Both are without the rounding to
// the cent. The mean is concave in x, because a limit takes a minimum and attribution
// goes by fixed shares. Hence
//
//	mean at any x' <= mean at x + sum over k of dst[k] (x'[k] - x[k])
func (o *Operation) supergradient(dst []float64) (mean crop.Money) {
	n := len(o.Attribution.Recipients)
	own, arrived, ended, worth := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n), make([]crop.Share, n)
	for pool, byProducer := range o.Earned {
		for len(o.weights[pool]) < len(byProducer) {
			o.weights[pool] = append(o.weights[pool], make([]crop.Share, o.scenarios()))
		}
		if byProducer == nil {
			continue
		}
		for s := range o.scenarios() {
			o.own(own, byProducer, s)
			o.Attribution.Trace(pools[pool], own, arrived, ended)
			o.Attribution.Worth(pools[pool], arrived, worth)
			mean += floats.Sum(ended)
			for j, place := range o.Places {
				o.weights[pool][j][s] = worth[place]
			}
		}
	}
	net := (1 - o.Withheld) / float64(o.scenarios())
	o.Parallel(len(o.Flips), func(k int) {
		dst[k] = 0
		for _, c := range o.Flips[k] {
			for _, stake := range c.Stakes {
				dst[k] += net * stake.Share * floats.Dot(o.weights[stake.Pool][stake.Producer], c.Series)
			}
		}
	})
	return net * mean
}

// roundingSlack returns how far meanPaid may exceed a cutting plane, USD, because it
// rounds to the cent in each scenario for each recipient and a plane does not. A cent for
// each recipient covers that and floating-point error.
func (o *Operation) roundingSlack() crop.Money {
	return program.OneCent * float64(len(o.Attribution.Recipients))
}
