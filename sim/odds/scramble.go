package odds

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

// streamKey returns the key of one stream of coins: a hash of the seed, the
// replicate, the crop year and the name of what is drawn.
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

// coins returns the 64 random bits at one node of the digit tree. Node 1 is
// the root, node 2n+b the child of n for digit b.
func coins(key, node uint64) uint64 { return mix(key + node*golden) }

// scramble applies the nested scramble of a key to the first 2^m points of one
// Sobol dimension, in place. Each of the 2^m values of the upper m digits
// occurs once, so every node below holds a single point: its lower digits get
// independent coins, all taken from one hash.
func scramble(points []uint32, m int, key uint64) {
	upper := make([]uint32, 1, len(points)) // scrambled upper digits, by upper digits
	for depth := range m {
		wider := make([]uint32, 2*len(upper), len(points))
		for prefix, value := range upper {
			flip := uint32(coins(key, uint64(1<<depth+prefix)) & 1)
			wider[2*prefix], wider[2*prefix+1] = 2*value+flip, 2*value+1-flip
		}
		upper = wider
	}
	low := sobolBits - m
	for i, x := range points {
		prefix := x >> low
		lower := uint32(coins(key, uint64(1<<m)+uint64(prefix)) >> sobolBits)
		points[i] = upper[prefix]<<low | (x^lower)<<m>>m
	}
}
