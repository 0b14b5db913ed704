package odds

import (
	"math"
	"math/bits"
	"testing"
)

// scrambled returns 2^m scrambled points of a dimension (1 is the first).
func scrambled(dimension, m int, key uint64) []uint32 {
	points := sobolPoints(dimension, m)
	scramble(points, key)
	return points
}

// sobolPoints returns the first 2^m points of a dimension (1 is the first).
func sobolPoints(dimension, m int) []uint32 {
	points := make([]uint32, 1<<m)
	for n, block := 0, min(len(points), tilePoints); n < len(points); n += block {
		indices := inOrder(block)
		for i := range indices {
			indices[i] += uint32(n)
		}
		mirrors()[dimension-1]().fill(points[n:n+block], indices)
	}
	return points
}

// forward turns the digits of points back.
func forward(points []uint32) []uint32 {
	turned := make([]uint32, len(points))
	for i, x := range points {
		turned[i] = bits.Reverse32(x)
	}
	return turned
}

// inOrder returns 0 to n-1.
func inOrder(n int) []uint32 {
	indices := make([]uint32, n)
	for i := range indices {
		indices[i] = uint32(i)
	}
	return indices
}

// A nested scramble permutes intervals of equal length, so each of 2^m
// intervals still holds one of 2^m points.
func TestEveryDimensionStaysStratified(t *testing.T) {
	const m = 10
	for d := 1; d <= len(sobolTable()); d++ {
		hit := make([]int, 1<<m)
		for _, x := range scrambled(d, m, streamKey(1, d%Replicates, 2026, "stratified")) {
			hit[x>>(sobolBits-m)]++
		}
		for i, n := range hit {
			if n != 1 {
				t.Fatalf("dimension %d: interval %d of %d holds %d points, want 1", d, i, 1<<m, n)
			}
		}
	}
}

// Two Sobol dimensions form a (t,m,2)-net with t the sum of their degrees less
// one each (Niederreiter, Random Number Generation and Quasi-Monte Carlo
// Methods, 1992, chapter 4): every box of area 2^(t-m) holds
// 2^t points. Scrambling keeps that.
func TestPairsOfDimensionsStayNets(t *testing.T) {
	const m = 10
	for _, pair := range []struct{ a, b, t int }{{1, 2, 0}, {1, 3, 1}, {2, 3, 1}, {1, 4, 2}, {3, 4, 3}} {
		a := scrambled(pair.a, m, streamKey(7, 0, 2026, "first"))
		b := scrambled(pair.b, m, streamKey(7, 0, 2026, "second"))
		for wide := range m - pair.t + 1 {
			high := m - pair.t - wide
			held := map[[2]uint32]int{}
			for i := range a {
				held[[2]uint32{a[i] >> (sobolBits - wide), b[i] >> (sobolBits - high)}]++
			}
			if len(held) != 1<<(m-pair.t) {
				t.Errorf("dimensions %d and %d: %d of %d boxes of 2^-%d x 2^-%d hold points", pair.a, pair.b, len(held), 1<<(m-pair.t), wide, high)
			}
			for box, n := range held {
				if n != 1<<pair.t {
					t.Errorf("dimensions %d and %d: box %v of 2^-%d x 2^-%d holds %d points, want %d", pair.a, pair.b, box, wide, high, n, 1<<pair.t)
				}
			}
		}
	}
}

// A scramble is nested: the first k digits of the result depend on the first k
// digits of the point alone.
func TestScrambleIsNested(t *testing.T) {
	const m = 8
	points := sobolPoints(5, m)
	before := forward(points)
	scramble(points, streamKey(3, 2, 2027, "nested"))
	for k := 1; k <= m; k++ {
		image := map[uint32]uint32{}
		for i := range points {
			from, to := before[i]>>(sobolBits-k), points[i]>>(sobolBits-k)
			if old, seen := image[from]; seen && old != to {
				t.Fatalf("first %d digits %b go to both %b and %b", k, from, old, to)
			}
			image[from] = to
		}
	}
}

// Over many keys the scrambled first point is uniform: its mean is 1/2 and its
// variance 1/12, each within bound standard errors, and every digit is one in
// half of them.
func TestAScrambledPointIsUniform(t *testing.T) {
	const keys, m, bound = 20_000, 4, 4.5
	var sum, squares float64
	var ones [sobolBits]int
	for k := range keys {
		x := scrambled(3, m, streamKey(uint64(k), k%Replicates, 2026, "uniform"))[0]
		u := (float64(x) + 0.5) / (1 << 32)
		sum, squares = sum+u, squares+(u-0.5)*(u-0.5)
		for j := range ones {
			ones[j] += int(x >> j & 1)
		}
	}
	if d := math.Abs(sum/keys-0.5) / math.Sqrt(1.0/12/keys); d > bound {
		t.Errorf("mean %g is %.1f standard errors from 1/2", sum/keys, d)
	}
	if d := math.Abs(squares/keys-1.0/12) / math.Sqrt(1.0/180/keys); d > bound {
		t.Errorf("variance %g is %.1f standard errors from 1/12", squares/keys, d)
	}
	for j, n := range ones {
		if d := math.Abs(float64(n)-keys/2) / math.Sqrt(keys/4); d > bound {
			t.Errorf("digit %d is one in %d of %d scrambles", sobolBits-j, n, keys)
		}
	}
}

// Replicates, crop years, seeds and names have scrambles of their own: over
// pairs, the product of one point's deviations averages zero.
func TestScramblesAreIndependent(t *testing.T) {
	const keys, m, bound = 20_000, 4, 4.5
	other := map[string]func(seed uint64) uint64{
		"replicate": func(seed uint64) uint64 { return streamKey(seed, 1, 2026, "corn") },
		"crop year": func(seed uint64) uint64 { return streamKey(seed, 0, 2027, "corn") },
		"name":      func(seed uint64) uint64 { return streamKey(seed, 0, 2026, "cotn") },
		"seed":      func(seed uint64) uint64 { return streamKey(seed+1, 0, 2026, "corn") },
	}
	for what, key := range other {
		sum := 0.0
		for seed := range uint64(keys) {
			a := scrambled(2, m, streamKey(seed, 0, 2026, "corn"))[5]
			b := scrambled(2, m, key(seed))[5]
			sum += (float64(a)/(1<<32) - 0.5) * (float64(b)/(1<<32) - 0.5)
		}
		if d := math.Abs(sum/keys) / (1.0 / 12 / math.Sqrt(keys)); d > bound {
			t.Errorf("two scrambles that differ in %s: covariance is %.1f standard errors from 0", what, d)
		}
	}
}
