package odds

import (
	"fmt"
	"math"

	"fencerow/program/crop"
)

// Shape is the family of the distribution of a county yield.
type Shape string

// The shapes. Each has the mean it is given; where values below 0 are raised to 0 that
// adds a little.
const (
	ShapeWeibull   Shape = "weibull"   // long tail to low yields, for coefficients of variation under 28 percent
	ShapeNormal    Shape = "normal"    // truncated at 0, with mean and SD as given
	ShapeT         Shape = "t"         // Student's t with 5 degrees of freedom, raised to 0 where below
	ShapeLognormal Shape = "lognormal" // for checks
	ShapeMiss      Shape = "miss"      // near the estimate but for rare misses, raised to 0 where below
)

// Yield is the distribution of a county yield.
type Yield struct {
	Mean  crop.Yield // units/acre
	SD    crop.Yield // units/acre, of the whole but for ShapeMiss: of its centre; 0: known
	Shape Shape
}

// DefaultShape returns the shape of a commodity's county yield at a stage.
// Before harvest: normal for wheat, cotton and rice, Weibull for all others,
// as leave-one-out log scores on 5,180 state yields rank them (USDA NASS
// 1980-2011). After harvest the errors of estimates are symmetric: Student's t.
func DefaultShape(c crop.Commodity, stage Stage) Shape {
	switch {
	case stage == InsuranceYield:
		return ShapeMiss
	case stage != BeforeHarvest:
		return ShapeT
	case c == crop.Wheat || c == crop.SeedCotton || isRice(c):
		return ShapeNormal
	}
	return ShapeWeibull
}

// Draw sets dst[i] to the yield at shock z[i], a standard normal, rounded by
// round, which may be nil. A higher shock never gives a lower yield. With SD 0
// every yield is the mean. dst and z have equal length. An unknown shape
// panics.
func (y Yield) Draw(dst []crop.Yield, z []float64, round func(float64) float64) {
	at := y.Quantile()
	for i := range dst {
		dst[i] = at(z[i])
	}
	roundAll(dst, round)
}

// Quantile returns the yield as a function of its standard normal: Draw for a few
// values at a time. An unknown shape panics.
func (y Yield) Quantile() func(z float64) crop.Yield {
	if y.SD <= 0 || y.Mean <= 0 {
		return func(float64) float64 { return max(0, y.Mean) }
	}
	switch y.Shape {
	case ShapeWeibull:
		return y.weibull()
	case ShapeNormal:
		return y.normal()
	case ShapeT:
		t := studentCurve()
		return func(z float64) float64 { return max(0, y.Mean+y.SD*t.at(z)) }
	case ShapeLognormal:
		s := math.Sqrt(math.Log1p(y.SD / y.Mean * y.SD / y.Mean))
		return func(z float64) float64 { return y.Mean * math.Exp(s*(z-s/2)) }
	case ShapeMiss:
		return y.miss()
	}
	panic(fmt.Sprintf("sim/odds: unknown yield shape %q", y.Shape))
}

// weibull returns scale (-ln(1-u))^(1/k) at u = below(z), with k for the
// coefficient of variation and scale = Mean / Gamma(1+1/k).
func (y Yield) weibull() func(float64) crop.Yield {
	k := weibullShape(y.SD / y.Mean)
	logGamma, _ := math.Lgamma(1 + 1/k)
	logScale := math.Log(y.Mean) - logGamma
	log := weibullCurve()
	return func(z float64) float64 { return math.Exp(logScale + log.at(z)/k) }
}

// weibullShape solves sqrt(Gamma(1+2/k)/Gamma(1+1/k)^2 - 1) = cv for k, by
// halving: the left side falls in k.
func weibullShape(cv float64) float64 {
	low, high := 0.2, 1e6
	for range 100 {
		k := math.Sqrt(low * high)
		first, _ := math.Lgamma(1 + 1/k)
		second, _ := math.Lgamma(1 + 2/k)
		if math.Sqrt(max(0, math.Expm1(second-2*first))) > cv {
			low = k
		} else {
			high = k
		}
	}
	return math.Sqrt(low * high)
}

// normal returns the quantile of a normal truncated at 0 that has mean Mean
// and standard deviation SD after the truncation:
//
//	x = m - s quantile((1-below(a)) below(-z)),  a = -m/s
//
// Where less than 1e-12 lies below zero it is Mean + SD z.
func (y Yield) normal() func(float64) crop.Yield {
	const nothing = 1e-12
	m, s := truncatedNormal(y.Mean, y.SD)
	kept := below(m / s)
	if 1-kept < nothing {
		return func(z float64) float64 { return max(0, y.Mean+y.SD*z) }
	}
	return func(z float64) float64 { return max(0, m-s*quantile(kept*below(-z))) }
}

// truncatedNormal returns mean and standard deviation, before truncation at 0, of
// the normal whose mean and sd after it are mean and sd. With a = -m/s and
// h = density(a)/(1-below(a)) its coefficient of variation is
// sqrt(1+a h-h^2)/(h-a), which rises in a; found by halving. It stays under
// one, so an sd near the mean or above it gets the widest form here (a = 3,
// coefficient 0.93).
func truncatedNormal(mean, sd float64) (m, s float64) {
	hazard := func(a float64) float64 { return density(a) / below(-a) }
	low, high := -mean/sd-1, 3.0
	for range 100 {
		a := (low + high) / 2
		h := hazard(a)
		if math.Sqrt(1+a*h-h*h) < sd/mean*(h-a) {
			low = a
		} else {
			high = a
		}
	}
	a := (low + high) / 2
	s = mean / (hazard(a) - a)
	return -a * s, s
}

// miss returns the form of an insurance yield: in the middle 98 percent a
// normal of standard deviation SD, in the outer percent on either side off by more than 10
// percent of the mean, by an exponential excess of mean 5 percent. A judgement.
func (y Yield) miss() func(float64) crop.Yield {
	const param = "insurance_yield_miss"
	tail := must(param, "all", "US", "chance") / 2
	least, excess := must(param, "all", "US", "least size")*y.Mean, must(param, "all", "US", "mean excess")*y.Mean
	edge := -quantile(tail)
	return func(z float64) float64 {
		off := 0.0
		if size := math.Abs(z); size > edge {
			off = math.Copysign(least+excess*math.Log(tail/below(-size)), z)
		} else {
			off = y.SD * quantile(min(1, max(0, (below(z)-tail)/(1-2*tail))))
			off = min(least, max(-least, off))
		}
		return max(0, y.Mean+off)
	}
}
