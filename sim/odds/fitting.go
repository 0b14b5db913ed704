package odds

import (
	"math/bits"
	"sync"
)

// mostUneven is the t-value above which two dimensions are not taken together.
const mostUneven = 4

// fits reports, for every dimension of sobolTable, whether it fills the plane evenly
// together with another one at 2^m points: as digital nets their t-value is at most
// mostUneven (Niederreiter, Random Number Generation and Quasi-Monte Carlo Methods, 1992,
// chapter 4). Worked out when first asked for.
func fits(with, m int) []bool { return fitting()[with][m]() }

// fitting holds what fits works out, by dimension and m.
var fitting = sync.OnceValue(func() [][sobolBits + 1]func() []bool {
	all := make([][sobolBits + 1]func() []bool, len(sobolTable()))
	for with := range all {
		for m := range all[with] {
			all[with][m] = sync.OnceValue(func() []bool { return worksOutFits(with, m) })
		}
	}
	return all
})

func worksOutFits(with, m int) []bool {
	table := sobolTable()
	good, digits := make([]bool, len(table)), max(0, m-mostUneven)
	first := digitRows(table[with], m)
	for i := range table {
		good[i] = evenly(first, digitRows(table[i], m), digits)
	}
	return good
}

// evenly reports whether the leading digits of two dimensions are independent however so
// many of them are shared out.
func evenly(a, b []uint32, digits int) bool {
	for k := range digits + 1 {
		if !independent(a[:k], b[:digits-k]) {
			return false
		}
	}
	return true
}

// digitRows returns the first m digits of a dimension as linear forms in the m
// digits of the point's index, highest digit first.
func digitRows(v directions, m int) []uint32 {
	rows := make([]uint32, m)
	for j := range rows {
		for k := range m {
			rows[j] |= (v[k] >> (sobolBits - 1 - j) & 1) << k
		}
	}
	return rows
}

// independent reports whether binary vectors are linearly independent.
func independent(lists ...[]uint32) bool {
	var basis [sobolBits + 1]uint32
	for _, rows := range lists {
		for _, r := range rows {
			for r != 0 && basis[bits.Len32(r)] != 0 {
				r ^= basis[bits.Len32(r)]
			}
			if r == 0 {
				return false
			}
			basis[bits.Len32(r)] = r
		}
	}
	return true
}
