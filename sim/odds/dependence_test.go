package odds

import (
	"math"
	"runtime"
	"slices"
	"strings"
	"sync"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

func TestImportanceListsEveryCommodityOnce(t *testing.T) {
	sorted, all := slices.Clone(importance), crop.Commodities()
	slices.Sort(sorted)
	slices.Sort(all)
	if !slices.Equal(sorted, all) {
		t.Errorf("importance is %v, want the 23 commodities", importance)
	}
}

// Both matrices are correlation matrices: symmetric, ones on the diagonal, the
// least eigenvalue well above zero, and the factor multiplied out gives them back.
func TestCorrelationMatricesArePositiveDefinite(t *testing.T) {
	const least, tolerance = 0.02, 1e-12
	for name, m := range map[string]matrix{"prices": priceMatrix(nil), "yields": yieldMatrix()} {
		n := len(m)
		symmetric := mat.NewSymDense(n, nil)
		lower, ok := m.cholesky()
		if !ok {
			t.Fatalf("%s: not positive definite", name)
		}
		for i := range m {
			for j := range m {
				symmetric.SetSym(i, j, m[i][j])
				product := 0.0
				for k := range min(i, j) + 1 {
					product += lower[i][k] * lower[j][k]
				}
				if m[i][j] != m[j][i] || (i == j) != (m[i][j] == 1) || math.Abs(product-m[i][j]) > tolerance {
					t.Errorf("%s: %s with %s is %g one way, %g the other, %g by the factor", name, importance[i], importance[j], m[i][j], m[j][i], product)
				}
			}
		}
		var eigen mat.EigenSym
		eigen.Factorize(symmetric, false)
		if lowest := slices.Min(eigen.Values(nil)); lowest < least {
			t.Errorf("%s: least eigenvalue %g, want at least %g", name, lowest, least)
		} else {
			t.Logf("%s: least eigenvalue %.4f", name, lowest)
		}
	}
}

// The drawn correlations are the intended ones: corn with soybeans 0.68, corn
// with wheat 0.69 (annual price innovations 1992-2024), japonica with corn 0.9
// of that of rice, 0.44.
func TestPricesCorrelateAsIntended(t *testing.T) {
	const tolerance = 0.005
	s := newSampler(t, NewScenarios(1, DefaultScenarios))
	for _, c := range []struct {
		a, b crop.Commodity
		want float64
	}{
		{crop.Corn, crop.Soybeans, 0.68}, {crop.Corn, crop.Wheat, 0.69}, {crop.Corn, crop.GrainSorghum, 0.80},
		{crop.Wheat, crop.Oats, 0.75}, {crop.Corn, crop.SeedCotton, 0.38}, {crop.Corn, crop.LongGrainRice, 0.44},
		{crop.Corn, crop.TemperateJaponicaRice, 0.9 * 0.44}, {crop.LongGrainRice, crop.MediumGrainRice, 0.9},
		{crop.Lentils, crop.SmallChickpeas, 0.81},
	} {
		if got := stat.Correlation(s.PriceShock(c.a), s.PriceShock(c.b), nil); math.Abs(got-c.want) > tolerance {
			t.Errorf("%s with %s: got %.4f, want %.4f", c.a, c.b, got, c.want)
		}
	}
	for _, c := range crop.Commodities() {
		if mean, sd := stat.PopMeanStdDev(s.PriceShock(c), nil); math.Abs(mean) > 1e-3 || math.Abs(sd-1) > 5e-3 {
			t.Errorf("%s: mean %g and spread %g of a standard normal", c, mean, sd)
		}
	}
}

// Prices, counties, commodities and practices depend on each other as stated. Corn
// with soybeans of one county is meant to be near 0.67 (state yields
// 1980-2011); the parts that each shares with its price lower it a little:
// rho rho' 0.68 + (national national' + own own') 0.67.
func TestYieldsCorrelateAsIntended(t *testing.T) {
	const tolerance = 0.01
	s := newSampler(t, NewScenarios(1, DefaultScenarios))
	corn := YieldDependence{Price: -0.45, Counties: 0.31, Practices: PracticeCorrelation}
	soybeans := YieldDependence{Price: -0.25, Counties: 0.31, Practices: PracticeCorrelation}
	after := YieldDependence{Counties: 0.2, Practices: PracticeCorrelation}
	yield := func(county, practice string, c crop.Commodity, dep YieldDependence) []float64 {
		return s.YieldShock(YieldKey{county, practice, c}, dep).All()
	}
	national := func(dep YieldDependence) float64 { return math.Sqrt(dep.Counties - dep.Price*dep.Price) }
	together := 0.45*0.25*0.68 + (national(corn)*national(soybeans)+0.69)*0.67
	for _, c := range []struct {
		what string
		a, b []float64
		want float64
	}{
		{"corn yield with corn price", yield("99001", "all", crop.Corn, corn), s.PriceShock(crop.Corn), -0.45},
		{"soybean yield with soybean price", yield("99001", "all", crop.Soybeans, soybeans), s.PriceShock(crop.Soybeans), -0.25},
		{"corn of two counties", yield("99001", "all", crop.Corn, corn), yield("99003", "all", crop.Corn, corn), 0.31},
		{"corn and soybeans of one county", yield("99001", "all", crop.Corn, corn), yield("99001", "all", crop.Soybeans, soybeans), together},
		{"irrigated and nonirrigated corn", yield("99001", "irrigated", crop.Corn, corn), yield("99001", "nonirrigated", crop.Corn, corn), 0.6},
		{"irrigated corn and soybeans", yield("99001", "irrigated", crop.Corn, corn), yield("99001", "irrigated", crop.Soybeans, soybeans), together},
		{"after harvest: corn yield with corn price", yield("99001", "all", crop.Corn, after), s.PriceShock(crop.Corn), 0},
		{"after harvest: corn of two counties", yield("99001", "all", crop.Corn, after), yield("99003", "all", crop.Corn, after), 0.2},
		{"after harvest: corn and soybeans", yield("99001", "all", crop.Corn, after), yield("99001", "all", crop.Soybeans, after), 0.67},
	} {
		got := stat.Correlation(c.a, c.b, nil)
		if math.Abs(got-c.want) > tolerance {
			t.Errorf("%s: got %.4f, want %.4f", c.what, got, c.want)
		}
		t.Logf("%s: %.4f, intended %.4f", c.what, got, c.want)
		if mean, sd := stat.PopMeanStdDev(c.a, nil); math.Abs(mean) > 2e-3 || math.Abs(sd-1) > 5e-3 {
			t.Errorf("%s: mean %g and spread %g of a standard normal", c.what, mean, sd)
		}
	}
}

// Impossible wishes are cut, never made into spreads above one.
func TestLoadingsAlwaysHaveUnitVariance(t *testing.T) {
	for _, dep := range []YieldDependence{{}, {Price: -0.9, Counties: 0.31}, {Price: -2}, {Counties: 3, Practices: 0.6}, {Price: 0.3, Counties: -1, Practices: -1}, {Counties: 0.7, Practices: 0.6}, {Practices: 1}} {
		for _, split := range []bool{false, true} {
			l := dep.loadings(split)
			if v := l.price*l.price + l.nation*l.nation + l.county*l.county + l.practice*l.practice; math.Abs(v-1) > 1e-12 {
				t.Errorf("%+v: variance %g, want 1", dep, v)
			}
		}
	}
}

// The shocks of one key are the same whatever else is asked for,
// in whatever order, by however many goroutines.
func TestAShockDependsOnNothingElse(t *testing.T) {
	d := NewScenarios(4, 512)
	dep := YieldDependence{Price: -0.45, Counties: 0.31, Practices: PracticeCorrelation}
	key := YieldKey{"99001", "irrigated", crop.GrainSorghum}
	alone := newSampler(t, d)
	yield, price := alone.YieldShock(key, dep).All(), alone.PriceShock(crop.Lentils)
	for _, processors := range []int{1, 2} {
		old := runtime.GOMAXPROCS(processors)
		crowd := newSampler(t, d)
		var wait sync.WaitGroup
		for _, c := range crop.Commodities() {
			wait.Go(func() {
				crowd.PriceShock(c)
				crowd.YieldShock(YieldKey{"99003", "all", c}, dep).All()
				crowd.YieldShock(YieldKey{"99001", "nonirrigated", c}, dep).All()
			})
		}
		wait.Wait()
		runtime.GOMAXPROCS(old)
		if !slices.Equal(crowd.YieldShock(key, dep).All(), yield) || !slices.Equal(crowd.PriceShock(crop.Lentils), price) {
			t.Errorf("with %d processors and other keys the shocks are others", processors)
		}
	}
}

// Another seed, crop year, county or commodity draws otherwise.
func TestEveryPartOfTheKeyMatters(t *testing.T) {
	d := NewScenarios(4, 256)
	dep := YieldDependence{Counties: 0}
	first := newSampler(t, d).YieldShock(YieldKey{"99001", "all", crop.Corn}, dep).All()
	next, err := NewSampler(d, 2027, nil)
	if err != nil {
		t.Fatal(err)
	}
	for what, other := range map[string][]float64{
		"crop year": next.YieldShock(YieldKey{"99001", "all", crop.Corn}, dep).All(),
		"seed":      newSampler(t, NewScenarios(5, 256)).YieldShock(YieldKey{"99001", "all", crop.Corn}, dep).All(),
		"county":    newSampler(t, d).YieldShock(YieldKey{"99003", "all", crop.Corn}, dep).All(),
		"commodity": newSampler(t, d).YieldShock(YieldKey{"99001", "all", crop.Soybeans}, dep).All(),
		"practice":  newSampler(t, d).YieldShock(YieldKey{"99001", "irrigated", crop.Corn}, dep).All(),
	} {
		if slices.Equal(first, other) {
			t.Errorf("another %s draws the same", what)
		}
	}
}

func TestPriceCorrelationsOfTheUser(t *testing.T) {
	const tolerance = 0.01
	d := NewScenarios(1, 16384)
	s, err := NewSampler(d, 2026, PriceCorrelations{crop.Corn: {crop.Soybeans: 0.6, crop.Lentils: 0.4}})
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		a, b crop.Commodity
		want float64
	}{{crop.Corn, crop.Soybeans, 0.6}, {crop.Corn, crop.Lentils, 0.4}, {crop.Corn, crop.Wheat, 0.69}} {
		if got := stat.Correlation(s.PriceShock(c.a), s.PriceShock(c.b), nil); math.Abs(got-c.want) > tolerance {
			t.Errorf("%s with %s: got %.4f, want %.4f", c.a, c.b, got, c.want)
		}
	}
	for reason, c := range map[string]struct {
		own  PriceCorrelations
		says string
	}{
		"impossible with the others": {PriceCorrelations{crop.Corn: {crop.Soybeans: -0.95, crop.Oats: 0.5}}, "soybeans"},
		"two that cannot both hold":  {PriceCorrelations{crop.Lentils: {crop.Wheat: 0.99, crop.Corn: -0.99}}, "corn"},
		"beyond one":                 {PriceCorrelations{crop.Corn: {crop.Oats: 1.2}}, "oats"},
		"not a number":               {PriceCorrelations{crop.Corn: {crop.Oats: math.NaN()}}, "oats"},
		"with itself":                {PriceCorrelations{crop.Corn: {crop.Corn: 0.5}}, "corn"},
		"unknown commodity":          {PriceCorrelations{crop.Corn: {"alfalfa": 0.5}}, "alfalfa"},
		"two values for one pair":    {PriceCorrelations{crop.Corn: {crop.Oats: 0.5}, crop.Oats: {crop.Corn: 0.4}}, "oats"},
	} {
		if _, err := NewSampler(d, 2026, c.own); err == nil || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s: error %v does not name %q", reason, err, c.says)
		}
	}
	if _, err := NewSampler(d, 2026, PriceCorrelations{crop.Corn: {crop.Oats: 0.5}, crop.Oats: {crop.Corn: 0.5}}); err != nil {
		t.Errorf("one value stated both ways is refused: %v", err)
	}
}
