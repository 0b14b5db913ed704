package elect

import (
	"gonum.org/v1/gonum/floats"

	"fencerow/program"
	"fencerow/program/crop"
)

// pools are the payment limits that money counts against.
var pools = [...]program.LimitPool{program.GeneralPool, program.PeanutPool}

// Earned is what each producer earns in every scenario by limit pool, USD before
// sequestration: [pool][producer][scenario], nil where nothing counts against a pool.
type Earned [len(pools)][][]crop.Money

// Operation is what the producers of an operation earn under the elections it starts
// from, and the flips that can change them. Its methods change Earned; one goroutine
// uses it at a time.
type Operation struct {
	Attribution program.Attribution
	Places      []int      // of each producer among the recipients of Attribution
	Withheld    crop.Share // by sequestration, of what limits leave
	Earned      Earned
	Flips       []Flip
	Parallel    func(n int, do func(i int)) // calls do for 0 to n-1, in any order

	at      []float64 // how far each flip stands: 0 as at the start, 1 flipped
	weights Earned    // what one more dollar earned brings; scratch
}

// Flip is what one change of elections adds to what is earned: one commodity on one
// farm, or several together, go to their other program.
type Flip []Column

// Column is one series of payments and who has a stake in it.
type Column struct {
	Series []crop.Money // by scenario
	Stakes []Stake
}

// Stake is a producer's part of a column; its share is below zero for what a flip takes
// away.
type Stake struct {
	Pool, Producer int
	Share          crop.Share
}

// start puts every flip as at the start.
func (o *Operation) start() {
	if o.at == nil {
		o.at = make([]float64, len(o.Flips))
	}
}

// count is how many there are.
func (o *Operation) count() int {
	for _, byProducer := range o.Earned {
		if len(byProducer) > 0 {
			return len(byProducer[0])
		}
	}
	return 0
}

// shift moves flip k by some amount: 1 is a whole flip, -1 takes it back.
func (o *Operation) shift(k int, amount float64) {
	for _, c := range o.Flips[k] {
		for _, p := range c.Stakes {
			floats.AddScaled(o.Earned[p.Pool][p.Producer], amount*p.Share, c.Series)
		}
	}
	o.at[k] += amount
}

// flip turns flip k over.
func (o *Operation) flip(k int) { o.shift(k, 1-2*o.at[k]) }

// set moves every flip to x.
func (o *Operation) set(x []float64) {
	for k := range o.Flips {
		if change := x[k] - o.at[k]; change != 0 {
			o.shift(k, change)
		}
		o.at[k] = x[k] // without the noise of sums
	}
}

// flipped says which flips are made.
func (o *Operation) flipped() []bool {
	all := make([]bool, len(o.at))
	for k, x := range o.at {
		all[k] = x > half
	}
	return all
}

const half = 0.5

// meanPaid is what all recipients are paid on average as the flips stand, USD: to the cent
// in each scenario, as it is paid.
func (o *Operation) meanPaid() (total crop.Money) {
	n := len(o.Attribution.Recipients)
	own, arrived, ended, kept := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n)
	for d := range o.count() {
		clear(kept)
		for pool, byProducer := range o.Earned {
			if byProducer == nil {
				continue
			}
			o.own(own, byProducer, d)
			o.Attribution.Trace(pools[pool], own, arrived, ended)
			for i, money := range ended {
				kept[i] += money
			}
		}
		for _, money := range kept {
			if money != 0 {
				total += program.AfterSequestration(money, o.Withheld)
			}
		}
	}
	return total / float64(o.count())
}

// own sets what each recipient earns itself in one scenario.
func (o *Operation) own(dst []crop.Money, byProducer [][]crop.Money, scenario int) {
	for j, at := range o.Places {
		dst[at] = byProducer[j][scenario]
	}
}

// supergradient fills dst with what moving each flip brings, USD on average for a whole
// flip at the pace of a first small step, and returns the average itself, both without
// rounding to the cent. The average is a concave function of how far the flips stand:
// a limit is a minimum, attribution goes by fixed shares. Hence
//
//	average at any x' <= average at x + sum over k of dst[k] (x'[k] - x[k])
func (o *Operation) supergradient(dst []float64) (average crop.Money) {
	n := len(o.Attribution.Recipients)
	own, arrived, ended, worth := make([]crop.Money, n), make([]crop.Money, n), make([]crop.Money, n), make([]crop.Share, n)
	for pool, byProducer := range o.Earned {
		for len(o.weights[pool]) < len(byProducer) {
			o.weights[pool] = append(o.weights[pool], make([]crop.Share, o.count()))
		}
		if byProducer == nil {
			continue
		}
		for d := range o.count() {
			o.own(own, byProducer, d)
			o.Attribution.Trace(pools[pool], own, arrived, ended)
			o.Attribution.Worth(pools[pool], arrived, worth)
			average += floats.Sum(ended)
			for j, at := range o.Places {
				o.weights[pool][j][d] = worth[at]
			}
		}
	}
	net := (1 - o.Withheld) / float64(o.count())
	o.Parallel(len(o.Flips), func(k int) {
		dst[k] = 0
		for _, c := range o.Flips[k] {
			for _, p := range c.Stakes {
				dst[k] += net * p.Share * floats.Dot(o.weights[p.Pool][p.Producer], c.Series)
			}
		}
	})
	return net * average
}

// roundingSlack is what rounding to the cent may add to an average, USD: cents are rounded
// in each scenario for each recipient, and not in the planes. A cent for each covers
// that, and the noise of long sums.
func (o *Operation) roundingSlack() crop.Money {
	return program.OneCent * float64(len(o.Attribution.Recipients))
}
