package odds

import (
	"math"
	"testing"

	"fencerow/program/crop"
)

// revenueShortfall is a payment of the kind whose average is wanted: 0.85 of
// what revenue lacks to 90 percent of $810 an acre, at most 12 percent of it,
// with price 4.20 (sigma 0.18) and yield 182 (standard deviation 0.12, lognormal, -0.4).
func revenueShortfall(t testing.TB, d Scenarios) Summary {
	return shortfallWith(t, d, YieldDependence{Price: -0.4, States: 0.31, Counties: 0.31})
}

// shortfallWith is revenueShortfall whatever the county hangs together with beside the
// price: the average does not depend on it.
func shortfallWith(t testing.TB, d Scenarios, dep YieldDependence) Summary {
	s := newSampler(t, d)
	n := d.N()
	price, yield, payment := make([]float64, n), make([]float64, n), make([]float64, n)
	Price{RestMean: 4.20, Sigma: 0.18}.Draw(price, s.PriceShock(crop.Corn), nil)
	sd := 182 * math.Sqrt(math.Expm1(0.12*0.12)) // 0.12 is the standard deviation of the logarithm
	z := s.YieldShock(YieldKey{"99001", "all", crop.Corn}, dep).All()
	Yield{Mean: 182, SD: sd, Shape: ShapeLognormal}.Draw(yield, z, nil)
	for i := range payment {
		payment[i] = 0.85 * min(max(0, 0.9*810-price[i]*yield[i]), 0.12*810)
	}
	return Summarize(payment, d)
}

// meanShortfall is the same average by closed form, 24.600314672656776: with
// price and yield lognormal, revenue is lognormal too, and the payment is the
// difference of two puts on it.
//
//	put(K) = K N(a) - F N(a-s),  a = (ln(K/F) + s^2/2) / s
//
// Source: F. Black, Journal of Financial Economics 3 (1976), 167-179, without
// discount.
func meanShortfall() float64 {
	const sigmaPrice, sigmaYield, rho = 0.18, 0.12, -0.4
	f := 4.20 * 182 * math.Exp(rho*sigmaPrice*sigmaYield)
	s := math.Sqrt(sigmaPrice*sigmaPrice + sigmaYield*sigmaYield + 2*rho*sigmaPrice*sigmaYield)
	put := func(k float64) float64 {
		a := (math.Log(k/f) + s*s/2) / s
		return k*below(a) - f*below(a-s)
	}
	return 0.85 * (put(0.9*810) - put(0.9*810-0.12*810))
}

func TestMeanPaymentAgainstItsClosedForm(t *testing.T) {
	const bound, largest = 4, 0.02
	want := meanShortfall()
	if math.Abs(want-24.600314672656776) > 1e-9 {
		t.Errorf("closed form %.12f, by quadrature 24.600314672657", want)
	}
	s := revenueShortfall(t, NewScenarios(1, 65536))
	if math.Abs(s.Mean-want) > bound*s.StandardError || s.StandardError > largest {
		t.Errorf("mean %.5f, want %.5f, standard error %.5f, want under %g", s.Mean, want, s.StandardError, largest)
	}
	t.Logf("mean %.5f, closed form %.5f, standard error %.5f", s.Mean, want, s.StandardError)
}

// With a part of its State, and with parts of nation and State, the average is the same: more
// independent parts fill their space less evenly.
func TestMeanPaymentWithEveryPart(t *testing.T) {
	const bound, largest = 4, 0.04
	for what, dep := range map[string]YieldDependence{
		"State": {Price: -0.4, Counties: 0.51}, "nation and State": {Price: -0.4, States: 0.25, Counties: 0.51},
	} {
		s := shortfallWith(t, NewScenarios(1, 65536), dep)
		if want := meanShortfall(); math.Abs(s.Mean-want) > bound*s.StandardError || s.StandardError > largest {
			t.Errorf("%s: mean %.5f, want %.5f, standard error %.5f, want under %g", what, s.Mean, want, s.StandardError, largest)
		}
	}
}

func TestMoreDrawsShrinkTheError(t *testing.T) {
	last := math.Inf(1)
	for _, n := range []int{256, 4096, 65536} {
		s := revenueShortfall(t, NewScenarios(1, n))
		if s.StandardError >= last/2 {
			t.Errorf("%d draws: standard error %g, not half of %g", n, s.StandardError, last)
		}
		t.Logf("%d draws: standard error %.5f", n, s.StandardError)
		last = s.StandardError
	}
}

// The standard error is honest: over seeds, the mean is within two of them of
// the truth about 19 times in 20.
func TestStandardErrorIsHonest(t *testing.T) {
	const seeds, least = 100, 88
	within := 0
	for seed := range uint64(seeds) {
		if s := revenueShortfall(t, NewScenarios(seed, 4096)); math.Abs(s.Mean-meanShortfall()) < 2*s.StandardError {
			within++
		}
	}
	if within < least {
		t.Errorf("%d of %d means are within two standard errors, want about 94", within, seeds)
	}
	t.Logf("%d of %d means are within two standard errors", within, seeds)
}

func BenchmarkPriceShock(b *testing.B) {
	d := NewScenarios(1, DefaultScenarios)
	for b.Loop() {
		newSampler(b, d).PriceShock(crop.Corn)
	}
}

func BenchmarkYieldShock(b *testing.B) {
	s := newSampler(b, NewScenarios(1, DefaultScenarios))
	for b.Loop() {
		s.YieldShock(YieldKey{"99001", "all", crop.Soybeans}, YieldDependence{Price: -0.25, States: 0.14, Counties: 0.51}).All()
	}
}

func BenchmarkPriceDraw(b *testing.B) {
	z := newSampler(b, NewScenarios(1, DefaultScenarios)).PriceShock(crop.Corn)
	dst := make([]float64, len(z))
	for b.Loop() {
		Price{RestMean: 4.20, Sigma: 0.18}.Draw(dst, z, nil)
	}
}

func BenchmarkYieldDraw(b *testing.B) {
	z := newSampler(b, NewScenarios(1, DefaultScenarios)).PriceShock(crop.Corn)
	dst := make([]float64, len(z))
	for _, shape := range []Shape{ShapeWeibull, ShapeNormal, ShapeT, ShapeMiss} {
		b.Run(string(shape), func(b *testing.B) {
			for b.Loop() {
				Yield{Mean: 180, SD: 36, Shape: shape}.Draw(dst, z, nil)
			}
		})
	}
}

func BenchmarkSummary(b *testing.B) {
	d := NewScenarios(1, DefaultScenarios)
	z := newSampler(b, d).PriceShock(crop.Corn)
	for b.Loop() {
		Summarize(z, d)
		PercentilesOf(z)
	}
}
