package odds

import (
	"math/bits"
)

// Shock is the recipe of the standard normals behind one price or yield, one for each
// scenario: a weighted sum of independent standard normals. It can be carried out tile
// by tile, in any order; several goroutines may use it.
type Shock struct {
	sampler *Sampler
	parts   []shockPart
	whole   bool // of a county or farm yield, not a part of another shock: ExtremesTogether applies to it
}

// shockPart is one term of the sum.
type shockPart struct {
	weight  float64
	series  []float64 // by scenario; nil: made from columns
	columns []column  // by replicate
}

// column is one coordinate of one replicate: a Sobol dimension under a scramble.
type column struct {
	dimension *mirror
	key       uint64
}

// addColumn adds weight times N independent standard normals. The points of each
// replicate come from the Sobol dimension (an index of sobolTable) that dimension
// returns, scrambled with a key made of name.
func (k *Shock) addColumn(weight float64, name string, dimension func(replicate int) int) {
	if weight == 0 {
		return
	}
	s, part := k.sampler, shockPart{weight: weight}
	for k := range s.scenarios.Replicates {
		r := s.scenarios.First + k
		part.columns = append(part.columns, column{mirrors()[dimension(r)](), streamKey(s.scenarios.Seed, r, s.cropYear, name)})
	}
	k.parts = append(k.parts, part)
}

// Fill sets dst to the normals of scenarios from, from+1 ... Its length is
// Scenarios.Tile, and from a multiple of it. Allocates nothing.
func (k *Shock) Fill(dst []float64, from int) {
	var points [tilePoints]uint32
	var normal [tilePoints]float64
	clear(dst)
	replicate, indices := from/k.sampler.scenarios.Points, k.sampler.indices()[from:from+len(dst)]
	for i := range k.parts {
		part := &k.parts[i]
		if part.series != nil {
			addTo(dst, part.weight, part.series[from:from+len(dst)])
			continue
		}
		z := normal[:len(dst)]
		part.columns[replicate].fill(z, points[:len(dst)], indices)
		addTo(dst, part.weight, z)
	}
	if k.whole {
		k.sampler.stress(dst, from)
	}
}

// All returns all N normals.
func (k *Shock) All() []float64 {
	if k.sampler.fresh != nil {
		return k.Into(k.sampler.fresh())
	}
	return k.Into(make([]float64, k.sampler.scenarios.N()))
}

// Into sets dst to all N normals and returns it.
func (k *Shock) Into(dst []float64) []float64 {
	n := k.sampler.scenarios.Tile()
	for from := 0; from < len(dst); from += n {
		k.Fill(dst[from:from+n], from)
	}
	return dst
}

// fill sets dst to the standard normals of the points with these indices, one block as
// order makes it. points is scratch space of the same length.
func (c column) fill(dst []float64, points, indices []uint32) {
	c.dimension.fill(points, indices)
	scramble(points, c.key)
	normals(dst, points)
}

// allIndices returns the index of the point that each scenario takes, by order.
func (s *Sampler) allIndices() []uint32 {
	dst, n := make([]uint32, s.scenarios.N()), s.scenarios.Tile()
	for from := 0; from < len(dst); from += n {
		s.order(dst[from:from+n], from/s.scenarios.Points, from%s.scenarios.Points)
	}
	return dst
}

// order sets dst to the indices of the points that scenarios first, first+1 ... of a
// replicate take in this crop year. Its length is a power of two that divides first. A
// nested scramble of the indices shuffles them, so that a block of scenarios takes one
// block of points, and each crop year takes the points in an order of its own.
//
// Source: A. B. Owen, Latin supercube sampling for very high-dimensional simulations,
// ACM Transactions on Modeling and Computer Simulation 8 (1998).
func (s *Sampler) order(dst []uint32, replicate, first int) {
	key := streamKey(s.scenarios.Seed, s.scenarios.First+replicate, s.cropYear, "order")
	unused := sobolBits - s.scenarios.pointBits()
	for i := range dst {
		reversed := bits.Reverse32(uint32(first+i)) >> unused
		shuffled := scrambleDigits(reversed, key) << unused
		dst[i] = bits.Reverse32(shuffled)
	}
}
