package odds

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"

	"gonum.org/v1/gonum/stat/distuv"
)

// curve is a smooth function of a standard normal as a table of values and slopes at
// equal steps, read by cubic interpolation: a value then costs about as much as a
// multiplication. Between its ends it errs by less than 1e-8 (tested).
type curve struct{ value, slope []float64 }

// Ends and steps of every curve. A single standard normal is never beyond 6.34, a sum
// of several rarely beyond 8; what is takes the value at the end.
const (
	curveEnd   = 8
	curveSteps = 64 // per unit
)

func newCurve(f func(z float64) (value, slope float64)) curve {
	var c curve
	for i := range 2*curveEnd*curveSteps + 1 {
		value, slope := f(float64(i)/curveSteps - curveEnd)
		c.value, c.slope = append(c.value, value), append(c.slope, slope/curveSteps)
	}
	return c
}

// at returns the value at z by cubic Hermite interpolation.
func (c curve) at(z float64) float64 {
	x := (min(curveEnd, max(-curveEnd, z)) + curveEnd) * curveSteps
	i := min(int(x), len(c.value)-2)
	t := x - float64(i)
	rise := c.value[i+1] - c.value[i]
	a, b := c.slope[i]-rise, rise-c.slope[i+1]
	return c.value[i] + t*(rise+(1-t)*(a*(1-t)+b*t))
}

// weibullCurve is ln(-ln(1-u)) at u = below(z): the logarithm of a standard
// Weibull variable is this over its shape.
var weibullCurve = sync.OnceValue(func() curve {
	return newCurve(func(z float64) (float64, float64) {
		above := below(-z)
		log := math.Log(above)
		if z < 0 {
			log = math.Log1p(-below(z)) // above is next to one
		}
		return math.Log(-log), density(z) / (above * -log)
	})
})

// studentCurve is the quantile of Student's t at u = below(z), scaled to a
// standard deviation of one. Five degrees of freedom, a row of parameters.csv. It is read
// from studentcurve.csv, since it takes longer to work out than a question to answer; its
// test holds the file to the formula (newStudentCurve).
var studentCurve = sync.OnceValue(func() curve {
	c, err := readHalfCurve(studentFile)
	if err != nil {
		panic("sim/odds/studentcurve.csv: " + err.Error())
	}
	return c
})

//go:embed studentcurve.csv
var studentFile string

// newStudentCurve works studentCurve out.
func newStudentCurve() curve {
	freedom := must("estimate_error_degrees_of_freedom", "all", "US", "t")
	t := distuv.StudentsT{Sigma: 1, Nu: freedom}
	scale := math.Sqrt((freedom - 2) / freedom)
	return newCurve(func(z float64) (float64, float64) {
		if z == 0 {
			return 0, scale * density(0) / t.Prob(0)
		}
		x := t.Quantile(below(-math.Abs(z))) // the lower tail, where u is exact
		return math.Copysign(scale*x, z), scale * density(z) / t.Prob(x)
	})
}

// readHalfCurve reads value and slope at 0 and above, one step after the other, of a curve
// whose lower half mirrors the upper. Lines that begin with # are skipped.
func readHalfCurve(text string) (curve, error) {
	const half = curveEnd * curveSteps
	c := curve{make([]float64, 2*half+1), make([]float64, 2*half+1)}
	k := 0
	for line := range strings.Lines(text) {
		if line[0] == '#' {
			continue
		}
		first, second, _ := strings.Cut(strings.TrimSpace(line), ",")
		value, err := strconv.ParseFloat(first, 64)
		if err != nil {
			return c, err
		}
		slope, err := strconv.ParseFloat(second, 64)
		if err != nil || k > half {
			return c, fmt.Errorf("step %d of %d: %w", k, half, err)
		}
		c.value[half+k], c.value[half-k] = value, -value
		c.slope[half+k], c.slope[half-k] = slope, slope
		k++
	}
	if k != half+1 {
		return c, fmt.Errorf("%d steps, want %d", k, half+1)
	}
	return c, nil
}
