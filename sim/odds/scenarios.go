package odds

import (
	"math/bits"
)

// Replicates is how many independent sets of scenarios there are. Their means differ
// by chance alone, which gives the standard error.
const Replicates = 16

// leastPoints is the fewest scenarios of one replicate.
const leastPoints = 16

// DefaultScenarios is how many scenarios there are where nobody says: 16 replicates of
// 1,024. The standard error of an average difference then is about a tenth of a dollar
// per base acre, little beside what a price one usual error off changes.
const DefaultScenarios = 16384

// Scenarios says how many scenarios there are and from which seed. A slice by scenario
// has N elements, replicate by replicate: scenario i of replicate r is element
// r*Points+i.
type Scenarios struct {
	Seed       uint64
	Replicates int
	Points     int // per replicate, a power of two
	First      int // the first replicate, where these are some of a run's; else 0
}

// Part returns some replicates of a run, n of them from first on: its scenario i is
// scenario first*Points+i of the run.
func (d Scenarios) Part(first, n int) Scenarios {
	d.First, d.Replicates = d.First+first, n
	return d
}

// NewScenarios returns at least atLeast scenarios: 16 replicates of a power of two,
// never fewer than 16 each. Zero or less means DefaultScenarios.
func NewScenarios(seed uint64, atLeast int) Scenarios {
	if atLeast <= 0 {
		atLeast = DefaultScenarios
	}
	points := leastPoints
	for points < (atLeast+Replicates-1)/Replicates {
		points *= 2
	}
	return Scenarios{Seed: seed, Replicates: Replicates, Points: points}
}

// tilePoints is how many scenarios are made at once, at most: a power of two.
const tilePoints = 256

// Tile returns how many scenarios are made at once.
func (d Scenarios) Tile() int { return min(d.Points, tilePoints) }

// N returns the number of scenarios.
func (d Scenarios) N() int { return d.Replicates * d.Points }

// pointBits returns the binary logarithm of Points.
func (d Scenarios) pointBits() int { return bits.Len(uint(d.Points)) - 1 }
