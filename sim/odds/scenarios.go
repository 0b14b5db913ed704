package odds

import (
	"math/bits"
)

// Replicates is the number of independent scrambles of every set of draws.
// Their means differ by chance only, which gives the standard error.
const Replicates = 16

// leastPoints is the fewest points of one replicate.
const leastPoints = 16

// DefaultScenarios is the number of draws where none is asked for: 16 replicates of 1,024
// points. The standard error of an average difference then is about a tenth of a
// dollar per base acre, little beside what a price 5 percent off changes.
const DefaultScenarios = 16384

// Scenarios says how many draws there are and from which seed. Every slice of
// draws has N elements, replicate by replicate: draw i of replicate r is
// element r*Points+i.
type Scenarios struct {
	Seed       uint64
	Replicates int
	Points     int // per replicate, a power of two
}

// NewScenarios returns at least atLeast draws: 16 replicates of a power of two of
// points, never fewer than 16 points. Zero or less means DefaultDraws.
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

// tilePoints is how many draws are made at once where a replicate has so many: a
// power of two.
const tilePoints = 256

// Tile returns the number of draws that are made at once.
func (d Scenarios) Tile() int { return min(d.Points, tilePoints) }

// N returns the number of draws.
func (d Scenarios) N() int { return d.Replicates * d.Points }

// pointBits returns the binary logarithm of Points.
func (d Scenarios) pointBits() int { return bits.Len(uint(d.Points)) - 1 }
