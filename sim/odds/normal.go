package odds

import (
	"math"
	"math/bits"
	"sync"

	"gonum.org/v1/gonum/mathext"
)

// quantile returns the standard normal quantile of p in (0,1), to about 16
// digits.
//
// Source: algorithm AS 241 (M. J. Wichura, Applied Statistics 37, 1988), which
// is what gonum's mathext.NormalQuantile carries out.
func quantile(p float64) float64 { return mathext.NormalQuantile(p) }

// below returns the chance that a standard normal is below z; above z it is
// below(-z), exact in both tails.
func below(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }

// density returns the standard normal density at z.
func density(z float64) float64 { return math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }

// normals turns points into standard normals: dst[i] is the quantile of
// (points[i]+1/2)/2^32, to 2e-9 (tested). It never is 0 or 1, so dst is finite: at
// most 6.34.
func normals(dst []float64, points []uint32) {
	table := quantileTable()
	for i, x := range points {
		lower := x
		if x >= 1<<(sobolBits-1) {
			lower = ^x // the upper half mirrors the lower one
		}
		z := table.at(uint64(lower)<<1 | 1)
		if x == lower {
			z = -z
		}
		dst[i] = z
	}
}

// The table of quantiles has 2^stepBits equal steps in each halving of the chance.
const stepBits = 6

// quantiles is a table of the normal quantile: for each halving of the chance (1/2 to
// 1/4, 1/4 to 1/8, ...) values and slopes at equal steps, read by cubic interpolation.
type quantiles struct {
	node [(sobolBits + 1) << stepBits]quantileNode
}

type quantileNode struct{ value, slope, rise, next float64 }

// at returns minus the quantile of p/2^33, p odd and below 2^32.
func (q *quantiles) at(p uint64) float64 {
	halving := bits.Len64(p) - 1 // p lies in [2^halving, 2^(halving+1))
	inside := p << (sobolBits - halving) & (1<<sobolBits - 1)
	n := &q.node[halving<<stepBits|int(inside>>(sobolBits-stepBits))]
	t := float64(inside&(1<<(sobolBits-stepBits)-1)) * (1.0 / (1 << (sobolBits - stepBits)))
	return n.value + t*(n.rise+(1-t)*((n.slope-n.rise)*(1-t)+(n.rise-n.next)*t))
}

var quantileTable = sync.OnceValue(func() *quantiles {
	q := &quantiles{}
	at := func(p float64) (value, density0 float64) {
		z := -quantile(p)
		return z, -1 / density(z)
	}
	for halving := range sobolBits + 1 {
		low := math.Ldexp(1, halving-sobolBits-1)
		step := low / (1 << stepBits)
		for k := range 1 << stepBits {
			p := low + float64(k)*step
			value, slope := at(p)
			after, next := at(p + step)
			q.node[halving<<stepBits|k] = quantileNode{value, slope * step, after - value, next * step}
		}
	}
	return q
})
