package limits

import (
	"slices"

	"fencerow/program/crop"
)

// Series is what one person earns in each draw before any limit, USD after share: what
// counts against the general limit, and against that of peanuts; nil for nothing.
type Series [len(Pools)][]crop.Money

// Everywhere is one person who has a share in several operations, over all of them.
type Everywhere struct {
	Operations int
	Alone      crop.Money // what the operations, each by itself, pay on average together, USD after limit and sequestration
	Earned     Series
}

// EarnedSums are the series of an operation, which it takes back.
type EarnedSums earned

// For is a producer's own copy; nil where it earns nothing.
func (e EarnedSums) Of(producer int) (all Series) {
	for pot, byProducer := range e {
		if byProducer != nil && slices.Max(byProducer[producer]) > 0 {
			all[pot] = slices.Clone(byProducer[producer])
		}
	}
	return all
}
