package odds

import (
	"math"
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
)

// newSampler returns a sampler of crop year 2026 with the default correlations.
func newSampler(t testing.TB, d Scenarios) *Sampler {
	t.Helper()
	s, err := NewSampler(d, 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func TestAKnownPriceIsDrawnExactly(t *testing.T) {
	z := newSampler(t, NewScenarios(1, 256)).PriceShock(crop.Corn)
	dst := make([]float64, len(z))
	Price{Known: 1.25, RestMean: 3.55}.Draw(dst, z, nil)
	for i, p := range dst {
		if p != 4.80 {
			t.Fatalf("draw %d of a price without spread: got %g, want 4.80", i, p)
		}
	}
}

// The mean is the projected price and the quantiles are those of a lognormal:
// F exp(s q - s^2/2).
func TestPriceIsLognormalAboutItsMean(t *testing.T) {
	const bound = 4 // standard errors
	d := NewScenarios(1, DefaultScenarios)
	p := Price{RestMean: 4.20, Sigma: 0.18}
	dst := make([]float64, d.N())
	p.Draw(dst, newSampler(t, d).PriceShock(crop.Corn), nil)
	s := Summarize(dst, d)
	if math.Abs(s.Mean-4.20) > bound*s.StandardError {
		t.Errorf("mean %g, want 4.20, standard error %g", s.Mean, s.StandardError)
	}
	const spreadTolerance = 1e-3
	if want := 4.20 * math.Sqrt(math.Exp(0.18*0.18)-1); math.Abs(s.SD-want) > spreadTolerance || math.Abs(p.SD()-want) > 1e-12 {
		t.Errorf("spread drawn %g and stated %g, want %g", s.SD, p.SD(), want)
	}
	// 5th to 95th percentile: standard normal quantiles of any table
	const quantileTolerance = 2e-3
	for i, q := range []float64{-1.644854, -1.281552, -0.674490, 0, 0.674490, 1.281552, 1.644854} {
		want := 4.20 * math.Exp(0.18*q-0.18*0.18/2)
		if got := PercentilesOf(dst)[i]; math.Abs(got-want) > quantileTolerance {
			t.Errorf("percentile %d: got %.5f, want %.5f", Percents[i], got, want)
		}
	}
}

func TestMoreKnownMonthsShrinkTheSpread(t *testing.T) {
	d := NewScenarios(1, 4096)
	z := newSampler(t, d).PriceShock(crop.Corn)
	last := math.Inf(1)
	for _, known := range []float64{0, 1, 2.5, 4} {
		dst := make([]float64, d.N())
		Price{Known: known, RestMean: 4.20 - known, Sigma: 0.18}.Draw(dst, z, nil)
		if s := Summarize(dst, d); s.SD >= last {
			t.Errorf("with %g of 4.20 known the spread is %g, not below %g", known, s.SD, last)
		} else {
			last = s.SD
		}
	}
}

func TestPricesAreRoundedByTheCaller(t *testing.T) {
	z := newSampler(t, NewScenarios(1, 256)).PriceShock(crop.Corn)
	dst := make([]float64, len(z))
	Price{RestMean: 4.20, Sigma: 0.18}.Draw(dst, z, math.Floor)
	for _, p := range dst {
		if p != math.Floor(p) {
			t.Fatalf("price %g is not rounded", p)
		}
	}
}

func day(year int, month time.Month, day int) time.Time {
	return time.Date(year, month, day, 0, 0, 0, 0, time.UTC)
}

// Errors of USDA's monthly corn and soybean prices, May before harvest to August after, to
// five decimals, worked out by another program (Python's statistics.stdev) from all reports of
// USDA WASDE 1994-2024 without crop years 2016 and 2022.
func TestVolatilityOfEveryMonth(t *testing.T) {
	corn := []float64{.18135, .18514, .15707, .15881, .13702, .10801, .07263, .05857, .04523, .04063, .03248, .02625, .02205, .02102, .01352, .01092}
	soybeans := []float64{.14466, .14675, .13811, .12933, .10573, .07675, .06003, .05246, .04679, .03786, .02804, .02121, .01689, .01539, .00981, .00559}
	const tolerance = 1e-12
	for i, want := range corn {
		asOf := day(2026, time.May+time.Month(i), 10)
		sigma, rule := Usual.Volatility(crop.Corn, 2026, asOf)
		if sigma != want || !strings.Contains(rule, asOf.Month().String()) {
			t.Errorf("corn on %s: %g by %q, want %g", asOf.Format(time.DateOnly), sigma, rule, want)
		}
		// peanuts are likened to soybeans: 0.11 of mid-March against 0.15
		sigma, rule = Usual.Volatility(crop.Peanuts, 2026, asOf)
		if like := soybeans[i] * 0.11 / 0.15; math.Abs(sigma-like) > tolerance || !strings.Contains(rule, "scaled to peanuts") {
			t.Errorf("peanuts on %s: %g by %q, want %g", asOf.Format(time.DateOnly), sigma, rule, like)
		}
	}
	if _, rule := Usual.Volatility(crop.Corn, 2026, day(2026, time.November, 10)); rule != "error of USDA's November price for corn, 1995-2024" {
		t.Errorf("rule is %q", rule)
	}
}

// The yearly surprise of corn, 0.1947, and by how much later ones are wider, 1.15, are what
// sim/fit derives.
func TestVolatilityOutsideTheTable(t *testing.T) {
	const tolerance, later = 1e-12, 1.15 * 0.1947
	for _, c := range []struct {
		why  string
		asOf time.Time
		year int
		want float64
	}{
		{"mid-March default from January", day(2026, time.January, 1), 2026, 0.18},
		{"mid-March default to April", day(2026, time.April, 30), 2026, 0.18},
		{"August after harvest for ever", day(2030, time.February, 1), 2026, 0.01092},
		{"one year ahead: phi 0.80", day(2026, time.November, 10), 2027, math.Sqrt(.64*.07263*.07263 + later*later)},
		{"two years ahead", day(2026, time.November, 10), 2028, math.Sqrt(.64*(.64*.07263*.07263+later*later) + later*later)},
	} {
		if got, rule := Usual.Volatility(crop.Corn, c.year, c.asOf); math.Abs(got-c.want) > tolerance {
			t.Errorf("%s: got %g by %q, want %g", c.why, got, rule, c.want)
		}
	}
}

// Two years ahead is never surer than one, and every commodity has a standard deviation
// and a reason on every date.
func TestVolatilityOfEveryCommodity(t *testing.T) {
	for _, c := range crop.Commodities() {
		for month := day(2024, time.January, 15); month.Year() < 2028; month = month.AddDate(0, 1, 0) {
			sigma, rule := Usual.Volatility(c, 2026, month)
			next, _ := Usual.Volatility(c, 2027, month)
			if !(sigma > 0 && sigma < 0.5) || rule == "" {
				t.Errorf("%s on %s: %g by %q", c, month.Format(time.DateOnly), sigma, rule)
			}
			if month.Before(day(2026, time.January, 1)) && next < sigma {
				t.Errorf("%s on %s: spread of 2027 %g is under that of 2026 %g", c, month.Format(time.DateOnly), next, sigma)
			}
		}
	}
}
