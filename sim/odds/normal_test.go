package odds

import (
	"math"
	"testing"
)

// Normal quantiles to 16 digits, recomputed with 50 digits by the inverse error
// function (Python mpmath 1.3).
func TestNormalQuantile(t *testing.T) {
	const tolerance = 1e-14 // relative; AS 241 promises about 16 digits
	for p, want := range map[float64]float64{
		0.975: 1.959963984540054,
		0.001: -3.090232306167813,
		1e-10: -6.361340902404056,
		0.3:   -0.5244005127080409,
	} {
		if got := quantile(p); math.Abs(got/want-1) > tolerance {
			t.Errorf("quantile(%g) = %.16g, want %.16g, difference %.1g", p, got, want, got-want)
		}
		if back := below(want); math.Abs(back/p-1) > 1e-13 {
			t.Errorf("below(%.16g) = %.16g, want %g", want, back, p)
		}
	}
}

// The first and the last of 2^32 points are finite and mirror each other.
func TestNormalsOfExtremePoints(t *testing.T) {
	z := make([]float64, 3)
	normals(z, []uint32{0, math.MaxUint32, 1 << 31})
	if z[0] < -6.35 || z[0] > -6.3 || math.Abs(z[0]+z[1]) > 1e-6 || math.Abs(z[2]) > 1e-9 {
		t.Errorf("normals of first, last and middle point: %v, want about -6.34, 6.34, 0", z)
	}
}

// The table agrees with AS 241 at every kind of point: all of the tails, and a
// walk through the rest.
func TestNormalsAgainstTheirQuantiles(t *testing.T) {
	const tolerance = 2e-9
	var points []uint32
	for i := range uint32(5000) {
		points = append(points, i, ^i)
	}
	for x := uint64(0); x < 1<<sobolBits; x += 43_117 {
		points = append(points, uint32(x))
	}
	z, worst := make([]float64, len(points)), 0.0
	normals(z, points)
	for i, x := range points {
		worst = max(worst, math.Abs(z[i]-quantile((float64(x)+0.5)/(1<<sobolBits))))
	}
	if worst > tolerance {
		t.Errorf("largest difference %g, want at most %g", worst, tolerance)
	}
	t.Logf("largest difference %.2g", worst)
}
