package odds

import (
	"math"
	"strings"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"

	"fencerow/program/crop"
)

func countyShock(t testing.TB, d Scenarios, practice string, c crop.Commodity) []float64 {
	t.Helper()
	return newSampler(t, d).YieldShock(YieldKey{"99001", practice, c}, YieldDependence{Price: -0.4, Counties: 0.31, Practices: 0.6}).All()
}

func TestAKnownYieldIsDrawnExactly(t *testing.T) {
	z := countyShock(t, NewScenarios(1, 256), "all", crop.Corn)
	dst := make([]float64, len(z))
	for _, shape := range []Shape{ShapeWeibull, ShapeNormal, ShapeT, ShapeLognormal, ShapeMiss, ""} {
		Yield{Mean: 187.30, Shape: shape}.Draw(dst, z, nil)
		for i, y := range dst {
			if y != 187.30 {
				t.Fatalf("%q, draw %d of a yield without spread: got %g, want 187.30", shape, i, y)
			}
		}
	}
}

// Every shape keeps the mean and standard deviation it is given. The cut at zero bends
// Student's t at wide spreads, the misses widen an insurance yield:
// sqrt(0.98 x 1^2 + 0.02 x (10^2 + 2 x 10 x 5 + 2 x 5^2)) = 2.45 percent.
func TestEveryShapeKeepsMeanAndSpread(t *testing.T) {
	const meanTolerance, spreadTolerance, rareTolerance = 2e-3, 1e-2, 4e-2 // relative; the last where 2 draws in 100 make the standard deviation
	d := NewScenarios(3, DefaultScenarios)
	z := countyShock(t, d, "all", crop.Corn)
	missSpread := math.Sqrt(0.98*1+0.02*(100+100+50)) / 100
	for _, c := range []struct {
		shape     Shape
		cv, drawn float64
	}{
		{ShapeWeibull, 0.04, 0.04}, {ShapeWeibull, 0.12, 0.12}, {ShapeWeibull, 0.45, 0.45},
		{ShapeNormal, 0.12, 0.12}, {ShapeNormal, 0.30, 0.30}, {ShapeNormal, 0.45, 0.45}, {ShapeNormal, 0.80, 0.80},
		{ShapeT, 0.05, 0.05}, {ShapeT, 0.18, 0.18},
		{ShapeLognormal, 0.12, 0.12}, {ShapeLognormal, 0.40, 0.40},
		{ShapeMiss, 0.01, missSpread},
	} {
		dst := make([]float64, d.N())
		Yield{Mean: 180, SD: 180 * c.cv, Shape: c.shape}.Draw(dst, z, nil)
		s, tolerance := Summarize(dst, d), spreadTolerance
		if c.shape == ShapeMiss {
			tolerance = rareTolerance
		}
		if math.Abs(s.Mean/180-1) > meanTolerance*max(c.drawn, 0.1) || math.Abs(s.SD/180/c.drawn-1) > tolerance {
			t.Errorf("%s at %g: mean %.4f, spread %.5f of it, want 180 and %.5f", c.shape, c.cv, s.Mean, s.SD/180, c.drawn)
		}
		for i, y := range dst {
			if !(y >= 0) || math.IsInf(y, 0) {
				t.Fatalf("%s at %g: draw %d is %g", c.shape, c.cv, i, y)
			}
		}
	}
}

// grid is a set of shocks that covers all that can be drawn.
func grid() []float64 {
	var z []float64
	for x := -7.0; x <= 7; x += 0.037 {
		z = append(z, x)
	}
	return z
}

func TestAHigherShockNeverLowersAYield(t *testing.T) {
	z := grid()
	dst := make([]float64, len(z))
	for _, shape := range []Shape{ShapeWeibull, ShapeNormal, ShapeT, ShapeLognormal, ShapeMiss} {
		for _, cv := range []float64{0.005, 0.01, 0.06, 0.3, 0.45} {
			Yield{Mean: 100, SD: 100 * cv, Shape: shape}.Draw(dst, z, nil)
			for i := 1; i < len(z); i++ {
				if dst[i] < dst[i-1] {
					t.Errorf("%s at %g: %g at shock %g, then %g at %g", shape, cv, dst[i-1], z[i-1], dst[i], z[i])
				}
			}
		}
	}
}

// The Weibull quantile written out: scale (-ln(1-u))^(1/k). Shapes k for a
// spread, solved with 50 digits (Python mpmath 1.3): 0.05, 0.12, 0.30.
func TestWeibullAgainstItsFormula(t *testing.T) {
	const shapeTolerance, valueTolerance = 1e-10, 1e-9 // relative
	for cv, k := range map[float64]float64{0.05: 24.9497751766556701, 0.12: 10.0273805376731593, 0.30: 3.71377236642960477} {
		if got := weibullShape(cv); math.Abs(got/k-1) > shapeTolerance {
			t.Errorf("shape for a spread of %g: got %.12g, want %.12g", cv, got, k)
		}
		at := Yield{Mean: 180, SD: 180 * cv, Shape: ShapeWeibull}.Quantile()
		for _, z := range grid() {
			logAbove := math.Log(below(-z))
			if z < 0 {
				logAbove = math.Log1p(-below(z))
			}
			want := 180 / math.Gamma(1+1/k) * math.Pow(-logAbove, 1/k)
			if got := at(z); math.Abs(got/want-1) > valueTolerance {
				t.Errorf("spread %g, shock %g: got %.12g, want %.12g", cv, z, got, want)
			}
		}
	}
}

// Quantiles of Student's t with 5 degrees of freedom over sqrt(5/3) at normal
// quantiles, by the incomplete beta function with 50 digits (Python mpmath
// 1.3); and between them against gonum's quantile.
func TestStudentAgainstItsFormula(t *testing.T) {
	const tolerance = 1e-8 // relative
	at := Yield{Mean: 1000, SD: 1, Shape: ShapeT}.Quantile()
	for z, want := range map[float64]float64{
		-1: -0.860194696769153192, -2: -2.05163502701066511, -3: -4.26576560252605949, -5: -24.6685795545770995,
		-6: -76.8437811225064615, -7: -290.465467426570143, 0: 0, 2: 2.05163502701066511, 5: 24.6685795545770995,
	} {
		if got := at(z) - 1000; math.Abs(got-want) > tolerance*max(1, math.Abs(want)) {
			t.Errorf("shock %g: got %.12g, want %.12g", z, got, want)
		}
	}
	student := distuv.StudentsT{Sigma: 1, Nu: 5}
	for _, z := range grid() {
		want := math.Copysign(student.Quantile(below(-math.Abs(z)))*math.Sqrt(0.6), z)
		if got := studentCurve().at(z); math.Abs(got-want) > tolerance*max(1, math.Abs(want)) {
			t.Errorf("shock %g: got %.12g, gonum %.12g", z, got, want)
		}
	}
}

// 2 in 100 insurance yields are off by more than 10 percent, half of them below.
func TestInsuranceYieldMisses(t *testing.T) {
	const bound = 4 // standard errors
	d := NewScenarios(1, DefaultScenarios)
	dst := make([]float64, d.N())
	Yield{Mean: 100, SD: 1, Shape: ShapeMiss}.Draw(dst, countyShock(t, d, "all", crop.Corn), nil)
	for what, counts := range map[string]func(float64) bool{
		"below 90":  func(y float64) bool { return y < 90 },
		"above 110": func(y float64) bool { return y > 110 },
	} {
		if share, standard := Chance(dst, d, counts); math.Abs(share-0.01) > bound*standard || standard > 1e-3 {
			t.Errorf("share %s: got %g, want 0.01, standard error %g", what, share, standard)
		}
	}
}

func TestDefaultShapes(t *testing.T) {
	for _, c := range []struct {
		commodity crop.Commodity
		stage     Stage
		want      Shape
	}{
		{crop.Corn, BeforeHarvest, ShapeWeibull}, {crop.Wheat, BeforeHarvest, ShapeNormal},
		{crop.SeedCotton, BeforeHarvest, ShapeNormal}, {crop.TemperateJaponicaRice, BeforeHarvest, ShapeNormal},
		{crop.Corn, StateReport, ShapeT}, {crop.Wheat, LocalHarvest, ShapeT}, {crop.Wheat, CountyEstimate, ShapeT},
		{crop.Corn, InsuranceYield, ShapeMiss},
	} {
		if got := DefaultShape(c.commodity, c.stage); got != c.want {
			t.Errorf("%s, %s: got %s, want %s", c.commodity, c.stage, got, c.want)
		}
	}
}

// The ladder of knowledge, share of the mean, at a county standard deviation of 0.02, 0.10,
// 0.20 and 0.60.
func TestSpreadByStage(t *testing.T) {
	const tolerance = 1e-12
	for stage, want := range map[Stage][4]float64{
		BeforeHarvest:  {0.06, 0.10, 0.20, 0.45},
		StateReport:    {0.06, 0.064, 0.128, 0.288}, // 0.64 of it for corn
		LocalHarvest:   {0.05, 0.055, 0.11, 0.2475},
		CountyEstimate: {0.04, 0.04, 0.08, 0.18},
		InsuranceYield: {0.01, 0.01, 0.01, 0.01},
		Final:          {},
	} {
		for i, cv := range []float64{0.02, 0.10, 0.20, 0.60} {
			if got := Usual.CVAtStage(crop.Corn, stage, cv); math.Abs(got-want[i]) > tolerance {
				t.Errorf("%s at %g: got %g, want %g", stage, cv, got, want[i])
			}
		}
	}
}

// A line with one wild year keeps its slope: 100 + 2 per year from 2010, and a
// year of drought at 40.
func TestTrendIgnoresOneWildYear(t *testing.T) {
	years, yields := straight(12)
	yields[7] = 40
	if got := Trend(years, yields, 2026); math.Abs(got-132) > 1e-9 {
		t.Errorf("trend of 2026: got %g, want 132", got)
	}
	for i, j := 0, len(years)-1; i < j; i, j = i+1, j-1 {
		years[i], years[j], yields[i], yields[j] = years[j], years[i], yields[j], yields[i]
	}
	if got := Trend(years, yields, 2026); math.Abs(got-132) > 1e-9 {
		t.Errorf("the same in reverse order: got %g, want 132", got)
	}
	if got := Trend([]int{2020}, []float64{50}, 2026); got != 50 {
		t.Errorf("one year: got %g, want 50", got)
	}
	if got := Trend(nil, nil, 2026); !math.IsNaN(got) {
		t.Errorf("no year: got %g, want NaN", got)
	}
}

func straight(n int) (years []int, yields []float64) {
	for i := range n {
		years, yields = append(years, 2010+i), append(yields, 100+2*float64(i))
	}
	return years, yields
}

func TestCountyCV(t *testing.T) {
	const tolerance = 1e-12
	years, steady := straight(12)
	_, spread := straight(12)
	for i := range spread { // 20 percent above and below the trend by turns
		spread[i] *= 1 + 0.2*float64(1-2*(i%2))
	}
	_, wild := straight(12)
	for i := range wild { // 90 percent above and below
		wild[i] *= 1 + 0.9*float64(1-2*(i%2))
	}
	for _, c := range []struct {
		why       string
		commodity crop.Commodity
		state     string
		yields    []float64
		want      float64
		status    crop.Status
		rule      string
	}{
		{"steady yields in no state: least", crop.Corn, "99", steady, 0.06, crop.Assumed, "raised to the least used"},
		{"steady yields in Illinois: 0.8 x 0.1519", crop.Corn, "17", steady, 0.8 * 0.1519, crop.Assumed, "what is usual there, 1980-2011"},
		{"state median of Alabama corn, 2014-2023", crop.Corn, "01", nil, must("county_yield_cv_median", "corn", "Alabama", "annual"), crop.Assumed, "Alabama counties"},
		{"US median of corn", crop.Corn, "99", nil, must("county_yield_cv_quantile", "corn", "US", "q50"), crop.Assumed, "US counties"},
		{"flaxseed likened to canola", crop.Flaxseed, "99", nil, must("county_yield_cv_quantile", "canola", "US", "q50"), crop.Assumed, "taken for flaxseed"},
		{"Texas sorghum above the highest used", crop.GrainSorghum, "48", wild, 0.45, crop.Assumed, "lowered"},
	} {
		y := years
		if c.yields == nil {
			y = nil
		}
		cv, rule, status := Usual.CountyCV(c.commodity, c.state, SpreadOf(y, c.yields, false))
		if math.Abs(cv-c.want) > tolerance || status != c.status || !strings.Contains(rule, c.rule) {
			t.Errorf("%s: got %g, %s, %q; want %g, %s, %q", c.why, cv, status, rule, c.want, c.status, c.rule)
		}
	}
	// 12 deviations of about 0.2 with 10 in the denominator: about 0.22
	cv, rule, status := Usual.CountyCV(crop.Corn, "99", SpreadOf(years, spread, false))
	if math.Abs(cv-0.2*math.Sqrt(1.2)) > 0.02 || status != crop.Computed || !strings.Contains(rule, "own 12 yields") {
		t.Errorf("own yields: got %g, %s, %q; want about 0.22, computed", cv, status, rule)
	}
	if _, rule, _ := Usual.CountyCV(crop.Corn, "99", SpreadOf(years[:9], spread[:9], false)); !strings.Contains(rule, "US counties") {
		t.Errorf("nine years are too few, but the rule is %q", rule)
	}
}
