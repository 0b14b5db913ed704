package odds

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

// newsToy are two programs: one pays 10 on average, the other 10 and what says depends on
// the news z, a standard normal; each has noise of its own.
type newsToy struct {
	name  string
	noise float64 // standard deviation of each program
	says  func(z float64) float64
}

func (toy newsToy) again(t *testing.T, d Scenarios) Again {
	t.Helper()
	rng := rand.New(rand.NewPCG(d.Seed, 7))
	first, second, z := make([]float64, d.N()), make([]float64, d.N()), newSampler(t, d).PriceShock(crop.Corn)
	for i := range first {
		first[i] = 10 + toy.noise*rng.NormFloat64()
		second[i] = 10 + toy.says(z[i]) + toy.noise*rng.NormFloat64()
	}
	return ChoosingAgain(z, first, second, d)
}

func linear(margin, slope float64) func(float64) float64 {
	return func(z float64) float64 { return margin + slope*z }
}

// linearGain is what choosing again adds where the second program pays margin + slope z
// more, by closed form: with the best choice at every z, and with one choice in each of
// NewsBins bins of equal chance. The density of z is phi, its distribution Phi.
//
//	best:   slope phi(margin/slope) - |margin| Phi(-|margin|/slope)
//	binned: sum of max(0, margin/16 + slope (phi(from) - phi(to))) - max(0, margin)
func linearGain(margin, slope float64) (best, binned float64) {
	best = slope*density(margin/slope) - math.Abs(margin)*below(-math.Abs(margin)/slope)
	from := 0.0 // the density at the lower end of the bin
	for k := range NewsBins {
		to := 0.0
		if k < NewsBins-1 {
			to = density(quantile(float64(k+1) / NewsBins))
		}
		binned += max(0, margin/NewsBins+slope*(from-to))
		from = to
	}
	return best, binned - max(0, margin)
}

func TestChoosingAgainAgainstClosedForms(t *testing.T) {
	const bound = 3 // standard errors
	d := NewScenarios(1, 65536)
	for _, k := range []struct{ margin, slope float64 }{{0, 5}, {2, 5}, {-2, 5}, {6, 5}} {
		best, binned := linearGain(k.margin, k.slope)
		g := newsToy{noise: 5, says: linear(k.margin, k.slope)}.again(t, d)
		if math.Abs(g.Adds-binned) > bound*g.StandardError || g.Adds > best+bound*g.StandardError || binned > best+1e-9 || g.StandardError > 0.05 {
			t.Errorf("margin %g, slope %g: adds %.4f, standard error %.4f, want %.4f, at most %.4f", k.margin, k.slope, g.Adds, g.StandardError, binned, best)
		}
		if math.Abs(g.Fixed-10-max(0, k.margin)) > 0.1 || math.Abs(g.Chosen-g.Fixed-g.Adds) > 1e-9 {
			t.Errorf("margin %g, slope %g: one choice %.4f, choosing again %.4f", k.margin, k.slope, g.Fixed, g.Chosen)
		}
		t.Logf("margin %g, slope %g: adds %.4f, standard error %.4f, closed form %.4f, at most %.4f", k.margin, k.slope, g.Adds, g.StandardError, binned, best)
	}
}

// In the lowest quarter of the news the second program pays 5 less, else 3 more: taking it
// always brings 3 x 3/4 - 5 x 1/4 = 1 more than the first, taking the first in the lowest
// quarter 2.25. The quarter ends where a bin does, so choosing again adds 1.25, all there is.
func TestChoosingAgainOnAStep(t *testing.T) {
	const bound = 3 // standard errors
	quarter := quantile(0.25)
	step := newsToy{noise: 5, says: func(z float64) float64 {
		if z < quarter {
			return -5
		}
		return 3
	}}
	g := step.again(t, NewScenarios(1, 65536))
	if math.Abs(g.Adds-1.25) > bound*g.StandardError || g.StandardError > 0.05 || math.Abs(g.Fixed-11) > 0.1 {
		t.Errorf("one choice %.4f, adds %.4f, standard error %.4f, want 11 and 1.25", g.Fixed, g.Adds, g.StandardError)
	}
}

// News that says nothing adds nothing: over seeds the average is zero within its error
// where both programs are alike, and never above it. Choices by chance alone cost where
// one is a little better, and nothing at all is added where it is clearly better.
func TestNewsThatSaysNothingAddsNothing(t *testing.T) {
	const seeds, bound = 200, 3
	for _, margin := range []float64{0, 1, 40} {
		var adds []float64
		for seed := range uint64(seeds) {
			g := newsToy{noise: 20, says: linear(margin, 0)}.again(t, NewScenarios(seed, 1024))
			adds = append(adds, g.Adds)
			if margin == 40 && (g.Adds != 0 || g.StandardError != 0) {
				t.Fatalf("margin 40: adds %g, standard error %g", g.Adds, g.StandardError)
			}
		}
		mean, sd := stat.MeanStdDev(adds, nil)
		if e := sd / math.Sqrt(seeds); mean > bound*e || margin == 0 && mean < -bound*e {
			t.Errorf("margin %g: %.4f on average, standard error %.4f", margin, mean, e)
		}
	}
}

// The standard error is honest whatever the news says: over seeds the spread of what
// choosing again adds is about the error printed.
func TestErrorOfChoosingAgainIsHonest(t *testing.T) {
	const seeds, least, most = 200, 0.80, 1.25
	for _, toy := range []newsToy{
		{"nothing, programs alike", 20, linear(0, 0)}, {"nothing, margin 1", 20, linear(1, 0)}, {"little", 20, linear(0, 1)}, {"little, margin 1", 20, linear(1, 1)},
		{"much", 20, linear(0, 5)}, {"much, margin 2", 20, linear(2, 5)}, {"much, margin 6", 20, linear(6, 5)},
	} {
		for _, n := range []int{1024, 4096} {
			var adds, squares []float64
			for seed := range uint64(seeds) {
				g := toy.again(t, NewScenarios(seed, n))
				adds, squares = append(adds, g.Adds), append(squares, g.StandardError*g.StandardError)
			}
			printed, spread := math.Sqrt(stat.Mean(squares, nil)), stat.StdDev(adds, nil)
			if ratio := spread / printed; ratio < least || ratio > most {
				t.Errorf("the news says %s, %d draws: standard deviation %.4f over %d seeds, printed error %.4f", toy.name, n, spread, seeds, printed)
			} else {
				t.Logf("the news says %s, %d draws: standard deviation over printed error %.2f", toy.name, n, ratio)
			}
		}
	}
}

// Prices that take few values keep equal ones in one bin: with one value there is one bin.
func TestEqualNewsIsOneBin(t *testing.T) {
	d := NewScenarios(1, 256)
	first, second, news := make([]float64, d.N()), make([]float64, d.N()), make([]float64, d.N())
	for i := range first {
		news[i], first[i], second[i] = 4.20, float64(i%2), 0.25
	}
	if g := ChoosingAgain(news, first, second, d); g != (Again{Fixed: 0.5, Chosen: 0.5}) {
		t.Errorf("%+v", g)
	}
}
