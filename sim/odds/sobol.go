package odds

import (
	_ "embed"
	"encoding/csv"
	"fmt"
	"math/bits"
	"strconv"
	"strings"
	"sync"
)

// sobolBits is the number of binary digits of a Sobol coordinate.
const sobolBits = 32

// directions are the direction numbers of one dimension: directions[k] is the
// coordinate of point 2^k, as a binary fraction of 32 digits.
type directions [sobolBits]uint32

//go:embed directions.csv
var directionFile string

const directionHeader = "dimension,degree,coefficient,initial_numbers"

// sobolTable returns the direction numbers of the dimensions in the order of
// directions.csv: element 0 is dimension 1 of the literature.
var sobolTable = sync.OnceValue(func() []directions {
	table, err := readDirections(directionFile)
	if err != nil {
		panic("sim/odds/directions.csv: " + err.Error())
	}
	return table
})

func readDirections(text string) ([]directions, error) {
	reader := csv.NewReader(strings.NewReader(text))
	reader.Comment = '#'
	rows, err := reader.ReadAll()
	if err != nil {
		return nil, err
	}
	if len(rows) == 0 || strings.Join(rows[0], ",") != directionHeader {
		return nil, fmt.Errorf("the columns are not %q", directionHeader)
	}
	var table []directions
	last := 0
	for _, row := range rows[1:] {
		v, err := parseDirections(row)
		if err != nil {
			return nil, fmt.Errorf("dimension %q: %w", row[0], err)
		}
		dimension, err := strconv.Atoi(row[0])
		if err != nil || dimension <= last {
			return nil, fmt.Errorf("dimension %q after %d", row[0], last)
		}
		table, last = append(table, v), dimension
	}
	return table, nil
}

// parseDirections reads the degree s of a primitive polynomial, the bits a of
// its inner coefficients and the initial odd numbers m[1..s]. Dimension 1 has
// degree 0: all its numbers are one.
func parseDirections(row []string) (directions, error) {
	degree, err := strconv.Atoi(row[1])
	if err != nil {
		return directions{}, err
	}
	coefficient, err := strconv.Atoi(row[2])
	if err != nil {
		return directions{}, err
	}
	initial := strings.Fields(row[3])
	if len(initial) != degree || degree >= sobolBits {
		return directions{}, fmt.Errorf("degree %d with %d initial numbers", degree, len(initial))
	}
	var v directions
	for k, text := range initial {
		m, err := strconv.ParseUint(text, 10, 32)
		if err != nil {
			return directions{}, err
		}
		if m%2 == 0 || m >= 1<<(k+1) {
			return directions{}, fmt.Errorf("initial number %d is %d", k+1, m)
		}
		v[k] = uint32(m) << (sobolBits - 1 - k)
	}
	v.extend(degree, coefficient)
	return v, nil
}

// extend fills in the numbers after the first s by the recurrence
//
//	v[k] = v[k-s] xor v[k-s]>>s xor a1 v[k-1] xor ... xor a(s-1) v[k-s+1]
//
// Source: Joe and Kuo, SIAM Journal on Scientific Computing 30 (2008),
// section 2; Bratley and Fox, ACM Transactions on Mathematical Software 14
// (1988), algorithm 659.
func (v *directions) extend(s, a int) {
	for k := s; k < sobolBits; k++ {
		if s == 0 {
			v[k] = 1 << (sobolBits - 1 - k)
			continue
		}
		v[k] = v[k-s] ^ v[k-s]>>s
		for j := 1; j < s; j++ {
			if a>>(s-1-j)&1 == 1 {
				v[k] ^= v[k-j]
			}
		}
	}
}

// mirrored returns the direction numbers with their digits reversed, and the points of
// all indices below tilePoints made of them.
func (v *directions) mirrored() mirror {
	var m mirror
	for k, number := range v {
		m.number[k] = bits.Reverse32(number)
	}
	for k, n := 0, 1; n < tilePoints; k, n = k+1, 2*n {
		for i := range n {
			m.last[n+i] = m.last[i] ^ m.number[k]
		}
	}
	return m
}

// mirror is one dimension with its digits reversed, lowest first, as scrambleDigits
// takes them.
type mirror struct {
	number [sobolBits]uint32
	last   [tilePoints]uint32 // the point of each index below tilePoints
}

// mirrors returns the dimensions of sobolTable with reversed digits, each made when
// first used.
var mirrors = sync.OnceValue(func() []func() *mirror {
	var all []func() *mirror
	for i := range sobolTable() {
		all = append(all, sync.OnceValue(func() *mirror { m := sobolTable()[i].mirrored(); return &m }))
	}
	return all
})

// fill sets dst to the points of the dimension with the indices given: point i is
// the exclusive or of the direction numbers at the one bits of i, point 0 is 0.
// The indices are one block in any order: a power of two of them, at most
// tilePoints, the same but for their last digits.
// Digits are reversed, lowest first.
func (m *mirror) fill(dst, indices []uint32) {
	mask := uint32(len(indices) - 1)
	block := uint32(0)
	for k, i := 0, indices[0]&^mask; i != 0; k, i = k+1, i>>1 {
		block ^= m.number[k] * (i & 1)
	}
	for n, i := range indices {
		dst[n] = block ^ m.last[i&mask%tilePoints]
	}
}
