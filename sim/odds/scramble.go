package odds

import (
	"math/bits"
)

// Nested uniform scrambling permutes the binary digits of a coordinate: digit
// k+1 is flipped or not by a coin of its own for every value of the k digits
// above it. Every point becomes uniform on (0,1) while the set stays as evenly
// spread as before, and two scrambles are independent.
//
// Source: A. B. Owen, Randomly permuted (t,m,s)-nets and (t,s)-sequences,
// Monte Carlo and Quasi-Monte Carlo Methods in Scientific Computing (1995);
// why the first point is kept: A. B. Owen, On dropping the first Sobol' point,
// arXiv 2008.08051 (2020).

// golden is the step of the splitmix64 sequence, the odd number next to
// 2^64 divided by the golden ratio.
const golden = 0x9E3779B97F4A7C15

// mix spreads the bits of x over all 64 bits, one to one.
//
// Source: G. L. Steele, D. Lea and C. H. Flood, Fast splittable pseudorandom
// number generators, OOPSLA 2014; constants of its variant 13 by D. Stafford.
func mix(x uint64) uint64 {
	x = (x ^ x>>30) * 0xBF58476D1CE4E5B9
	x = (x ^ x>>27) * 0x94D049BB133111EB
	return x ^ x>>31
}

// streamKey returns the key of one scramble: a hash of the seed, the replicate, the
// crop year and the name of what is drawn.
func streamKey(seed uint64, replicate, cropYear int, name string) uint64 {
	key := mix(seed + golden)
	for _, part := range []uint64{uint64(replicate), uint64(cropYear), hashName(name)} {
		key = mix(key ^ mix(part+golden))
	}
	return key
}

// hashName is the 64-bit FNV-1a hash of a name (IETF draft "The FNV
// Non-Cryptographic Hash Algorithm", Fowler, Noll, Vo and Eastlake).
func hashName(name string) uint64 {
	hash := uint64(0xCBF29CE484222325)
	for i := range len(name) {
		hash = (hash ^ uint64(name[i])) * 0x100000001B3
	}
	return hash
}

// scrambleDigits applies the nested scramble of a key to the reversed digits of a
// point, lowest first: sums and products only carry upward, so every digit of
// the result depends on the key and on the digits below it alone.
//
// Source: B. Burley, Practical hash-based Owen scrambling, Journal of Computer
// Graphics Techniques 9(4) (2020); multipliers by N. Vegdahl (2021), from memory.
// What is asked of them is tested: nested, uniform, independent.
func scrambleDigits(x uint32, key uint64) uint32 {
	x ^= x * 0x3D20ADEA
	x += uint32(key)
	x *= uint32(key>>sobolBits) | 1
	x ^= x * 0x05526C56
	x ^= x * 0x53A22864
	return x
}

// scramble applies the nested scramble of a key to points of one Sobol dimension
// with reversed digits, and turns their digits, in place. Each
// point is scrambled by itself, so scenarios can be made in any order and any number.
func scramble(points []uint32, key uint64) {
	for i, x := range points {
		points[i] = bits.Reverse32(scrambleDigits(x, key))
	}
}
