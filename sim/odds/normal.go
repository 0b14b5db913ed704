package odds

import (
	"math"

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
// (points[i]+1/2)/2^32. It never is 0 or 1, so dst is finite: at most 6.34.
func normals(dst []float64, points []uint32) {
	const scale = 1.0 / (1 << sobolBits)
	for i, x := range points {
		dst[i] = quantile((float64(x) + 0.5) * scale)
	}
}
