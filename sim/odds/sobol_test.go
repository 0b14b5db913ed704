package odds

import (
	"math/bits"
	"slices"
	"strings"
	"testing"
)

// The order of Joe and Kuo's own listing is that of the Gray code: point n of
// theirs is point n xor n/2 of ours.
func grayCode(n int) int { return n ^ n>>1 }

// The first eight points of dimensions 1 to 3, in eighths, as in the example of
// Joe and Kuo's notes on generating Sobol sequences (2008); dimension 1 is van
// der Corput's sequence in base 2.
func TestSobolFirstPointsAreThePublishedOnes(t *testing.T) {
	want := [3][8]uint32{
		{0, 4, 6, 2, 3, 7, 5, 1},
		{0, 4, 2, 6, 3, 7, 1, 5},
		{0, 4, 2, 6, 5, 1, 7, 3},
	}
	for dimension, eighths := range want {
		points := make([]uint32, 8)
		mirrors()[dimension]().fill(points, inOrder(8))
		points = forward(points)
		for n, w := range eighths {
			if got := points[grayCode(n)]; got != w<<29 {
				t.Errorf("dimension %d, point %d: got %g, want %g", dimension+1, n, float64(got)/(1<<32), float64(w)/8)
			}
		}
	}
}

// Rows of the published table new-joe-kuo-6.21201 and the structure that every
// row must have.
func TestDirectionTable(t *testing.T) {
	rows := strings.Split(strings.TrimSpace(directionFile), "\n")
	for _, row := range []string{"2,1,0,1", "3,2,1,1 3", "4,3,1,1 3 1", "5,3,2,1 1 1", "6,4,1,1 1 3 3", "7,4,4,1 3 5 13", "8,5,2,1 1 5 5 17"} {
		found := false
		for _, r := range rows {
			found = found || r == row
		}
		if !found {
			t.Errorf("published row %q is not in directions.csv", row)
		}
	}
	const dimensions = 256
	if n := len(sobolTable()); n != dimensions {
		t.Errorf("%d dimensions, want %d", n, dimensions)
	}
	for d, v := range sobolTable() {
		for k, number := range v {
			// an upper triangular matrix with ones on its diagonal
			if bits.TrailingZeros32(number) != sobolBits-1-k {
				t.Fatalf("dimension %d: direction number %d is %032b", d+1, k+1, number)
			}
		}
	}
}

func TestDirectionFileMistakesAreRefused(t *testing.T) {
	const good = directionHeader + "\n1,0,0,\n2,1,0,1\n"
	if _, err := readDirections(good); err != nil {
		t.Fatalf("a good table is refused: %v", err)
	}
	for reason, text := range map[string]string{
		"wrong header":             "dimension,degree\n1,0\n",
		"dimensions out of order":  directionHeader + "\n2,1,0,1\n1,0,0,\n",
		"dimension is a word":      directionHeader + "\none,0,0,\n",
		"even initial number":      directionHeader + "\n1,0,0,\n2,1,0,2\n",
		"initial number too large": directionHeader + "\n1,0,0,\n2,1,0,3\n",
		"too few initial numbers":  directionHeader + "\n1,0,0,\n2,2,1,1\n",
		"degree is a word":         directionHeader + "\n1,none,0,\n",
		"coefficient is a word":    directionHeader + "\n1,0,none,\n",
		"initial number is a word": directionHeader + "\n1,0,0,\n2,1,0,one\n",
		"ragged row":               directionHeader + "\n1,0\n",
	} {
		if _, err := readDirections(text); err == nil {
			t.Errorf("%s: accepted", reason)
		}
	}
}

// tValue returns t of the digital (t,m,s)-net that dimensions form: m less the
// most digits that are independent however they are shared out (Niederreiter,
// Random Number Generation and Quasi-Monte Carlo Methods, 1992, chapter 4).
func tValue(m int, dimensions ...directions) int {
	var rows [][]uint32
	for _, v := range dimensions {
		rows = append(rows, digitRows(v, m))
	}
	var shared func(k int, rest [][]uint32, chosen []uint32) bool
	shared = func(k int, rest [][]uint32, chosen []uint32) bool {
		if len(rest) == 1 {
			return independent(append(slices.Clone(chosen), rest[0][:k]...))
		}
		for a := range k + 1 {
			if !shared(k-a, rest[1:], append(slices.Clone(chosen), rest[0][:a]...)) {
				return false
			}
		}
		return true
	}
	for k := m; k > 0; k-- {
		if shared(k, rows, nil) {
			return m - k
		}
	}
	return m
}

// The dimensions of counties are spread well with those of prices and the nation's
// yields at every usual number of points, as directions.csv states.
func TestCountyDimensions(t *testing.T) {
	type with struct {
		dimensions []int // of the literature
		most       int   // t-value
	}
	for m := 8; m <= 13; m++ {
		for _, w := range []with{{[]int{1}, 3}, {[]int{2}, 4}, {[]int{3}, 4}, {[]int{4}, 5}, {[]int{5}, 5}, {[]int{6}, 5}, {[]int{1, 3}, 6}, {[]int{1, 2}, 6}, {[]int{3, 5}, 6}} {
			var shared []directions
			for _, d := range w.dimensions {
				shared = append(shared, sobolTable()[d-1])
			}
			for i, county := range sobolTable()[2*len(importance):] {
				if got := tValue(m, append(slices.Clone(shared), county)...); got > w.most {
					t.Errorf("2^%d points: county dimension %d with %v has t %d, want at most %d", m, i+1, w.dimensions, got, w.most)
				}
			}
		}
	}
}
