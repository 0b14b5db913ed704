package elect

import (
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
	routes  routes
	paid    paid
}

// Flip is what a change of elections adds to Earned: one commodity of one farm, or several
// together, go to their other program.
type Flip []Column

// Column is one series of payments and the producers who have a share in it. Columns of
// several flips may have the very same series: then it is gone through once for all.
type Column struct {
	Series []float64 // USD by scenario; or USD per unit or acre
	Stakes []Stake
}

// Stake is what one producer has of a column, and the limit pool it counts against (place
// in Earned). It is negative for payments that end with the flip.
type Stake struct {
	Pool, Producer int
	Share          float64    // of USD; of USD per unit or acre also times units or acres
	Off            crop.Money // USD by which the stake may be off in any scenario, for want of rounding to the cent
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

// paid is what every recipient is paid at the present flips, over all scenarios together,
// USD. A flip changes that for those alone whom its payments reach: only they are paid
// anew.
type paid struct {
	sums    []crop.Money // by recipient
	stale   []bool       // by recipient: sums does not hold since the last flip
	reached [][]int      // by flip: recipients whom its payments reach
	tile    *tile
}

// tile is scratch memory for some scenarios in a row, series by recipient.
type tile struct {
	length  int
	arrived [len(pools)][][]crop.Money
	ended   [][]crop.Money
	worth   [][]crop.Share
	within  []crop.Money // by scenario: what an entity passes on
	stays   []crop.Money // by scenario: with one recipient, of all pools

	scenario []crop.Money // by recipient, in one scenario
	place    []int        // of a recipient among the producers; -1: it is none
}
