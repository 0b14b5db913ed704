package odds

import (
	_ "embed"
	"fmt"
	"math"
	"strconv"
	"strings"
	"sync"
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
// from studentcurve.txt, since it takes longer to work out than a question to answer; its
// test has the formula and holds the file to it.
var studentCurve = sync.OnceValue(func() curve {
	c, err := readHalfCurve(studentFile)
	if err != nil {
		panic("sim/odds/studentcurve.txt: " + err.Error())
	}
	return c
})

//go:embed studentcurve.txt
var studentFile string

// readHalfCurve reads value and slope at 0 and above, one step after the other, of a curve
// whose lower half mirrors the upper.
func readHalfCurve(text string) (curve, error) {
	const half = curveEnd * curveSteps
	c, numbers := curve{make([]float64, 2*half+1), make([]float64, 2*half+1)}, strings.Fields(text)
	if len(numbers) != 2*(half+1) {
		return c, fmt.Errorf("%d numbers, want %d", len(numbers), 2*(half+1))
	}
	for k := range half + 1 {
		value, of := strconv.ParseFloat(numbers[2*k], 64)
		slope, at := strconv.ParseFloat(numbers[2*k+1], 64)
		if of != nil || at != nil {
			return c, fmt.Errorf("step %d: %q, %q", k, numbers[2*k], numbers[2*k+1])
		}
		c.value[half+k], c.value[half-k] = value, -value
		c.slope[half+k], c.slope[half-k] = slope, slope
	}
	return c, nil
}
