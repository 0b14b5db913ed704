package limits

import (
	"slices"

	"fencerow/program"
	"fencerow/program/crop"
)

// Pools are the limit pools that payments count against: the general limit and that of
// peanuts.
var Pools = [...]program.LimitPool{program.GeneralPool, program.PeanutPool}

// Earned is what each producer earns, USD after share, before limits and sequestration:
// [pool][producer][scenario]. A pool that nothing counts against is nil. The scenarios
// are all of a run, or those of one tile.
type Earned [len(Pools)][][]crop.Money

// Earnings is what one person earns in every scenario, USD after share, before limits
// and sequestration: [pool][scenario]. A pool in which it earns nothing is nil.
type Earnings [len(Pools)][]crop.Money

// AcrossOperations is one person with a share in several operations, over all of them.
type AcrossOperations struct {
	Operations     int        // how many
	PaidSeparately crop.Money // mean paid, USD after limit and sequestration, if each operation had the limit to itself
	Earned         Earnings   // summed over the operations
}

// Of returns a copy of what one producer earns.
func (e Earned) Of(producer int) (all Earnings) {
	for pool, byProducer := range e {
		if byProducer != nil && slices.Max(byProducer[producer]) > 0 {
			all[pool] = slices.Clone(byProducer[producer])
		}
	}
	return all
}

// copyTile fills the series that dst has, each of one tile, with the scenarios from first
// on.
func (e *Earned) copyTile(dst *Earned, first int) {
	for pool, byProducer := range dst {
		for j, series := range byProducer {
			if series != nil {
				copy(series, e[pool][j][first:])
			}
		}
	}
}

// filler adds to dst, which holds one tile of zeros, what the producers earn in the
// scenarios from first on.
type filler func(dst *Earned, first int)
