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

// The drawn correlations are the intended ones: those that sim/fit derives from yearly
// changes of prices 1992-2024 (corn with wheat, with grain sorghum, wheat with oats, dry
// peas for lentils), older ones where it has no series (soybeans 0.68, cotton 0.38, rice
// 0.44), japonica with corn 0.9 of that of rice.
func TestPricesCorrelateAsIntended(t *testing.T) {
	const tolerance = 0.005
	s := newSampler(t, NewScenarios(1, DefaultScenarios))
	for _, c := range []struct {
		a, b crop.Commodity
		want float64
	}{
		{crop.Corn, crop.Soybeans, 0.68}, {crop.Corn, crop.Wheat, 0.71}, {crop.Corn, crop.GrainSorghum, 0.82},
		{crop.Wheat, crop.Oats, 0.78}, {crop.Corn, crop.SeedCotton, 0.38}, {crop.Corn, crop.LongGrainRice, 0.44},
		{crop.Corn, crop.TemperateJaponicaRice, 0.9 * 0.44}, {crop.LongGrainRice, crop.MediumGrainRice, 0.9},
		{crop.Lentils, crop.SmallChickpeas, 0.81}, {crop.Wheat, crop.Lentils, 0.9 * 0.69},
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

// Prices, States, counties, commodities and practices depend on each other as the rows of
// parameters.csv say. Corn with soybeans of one county is meant to be near 0.67 (state yields
// 1980-2011); the parts that each shares with its price lower it a little:
// rho rho' 0.68 + (national national' + state state' + own own') 0.67. In the Corn Belt two
// States hang together by the price alone where its square is more than the row.
// Means over 128 seeds: where two counties share a dimension one seed is off by more.
func TestYieldsCorrelateAsIntended(t *testing.T) {
	const tolerance, seeds = 0.01, 128
	corn, soybeans := DependenceAtStage(crop.Corn, BeforeHarvest, -0.45), DependenceAtStage(crop.Soybeans, BeforeHarvest, -0.25)
	west, sorghum := DependenceAtStage(crop.Corn, BeforeHarvest, -0.1), DependenceAtStage(crop.GrainSorghum, BeforeHarvest, -0.1)
	wheat := DependenceAtStage(crop.Wheat, BeforeHarvest, -0.05)
	after := DependenceAtStage(crop.Corn, StateReport, 0)
	// what two commodities of one county have in common beside their prices
	common := func(a, b YieldDependence) float64 {
		nationA, nationB := max(0, a.States-a.Price*a.Price), max(0, b.States-b.Price*b.Price)
		stateA, stateB := a.Counties-nationA-a.Price*a.Price, b.Counties-nationB-b.Price*b.Price
		return math.Sqrt(nationA*nationB) + math.Sqrt(stateA*stateB) + math.Sqrt((1-a.Counties)*(1-b.Counties))
	}
	together := 0.45*0.25*0.68 + common(corn, soybeans)*0.67
	for _, c := range []struct {
		what string
		a, b drawn
		want float64
	}{
		{"corn yield with corn price", drawn{YieldKey{"17001", "all", crop.Corn}, corn}, drawn{key: YieldKey{Commodity: crop.Corn}}, -0.45},
		{"soybean yield with soybean price", drawn{YieldKey{"17001", "all", crop.Soybeans}, soybeans}, drawn{key: YieldKey{Commodity: crop.Soybeans}}, -0.25},
		{"corn of two counties of one State", drawn{YieldKey{"17001", "all", crop.Corn}, corn}, drawn{YieldKey{"17003", "all", crop.Corn}, corn}, 0.51},
		{"corn of two invented counties", drawn{YieldKey{"99001", "all", crop.Corn}, corn}, drawn{YieldKey{"99003", "all", crop.Corn}, corn}, 0.51},
		{"soybeans of two counties of one State", drawn{YieldKey{"17001", "all", crop.Soybeans}, soybeans}, drawn{YieldKey{"17003", "all", crop.Soybeans}, soybeans}, 0.51},
		{"wheat of two counties of one State", drawn{YieldKey{"40001", "all", crop.Wheat}, wheat}, drawn{YieldKey{"40003", "all", crop.Wheat}, wheat}, 0.44},
		{"grain sorghum of two counties of one State", drawn{YieldKey{"48001", "all", crop.GrainSorghum}, sorghum}, drawn{YieldKey{"48003", "all", crop.GrainSorghum}, sorghum}, 0.37},
		{"corn of two States in the Corn Belt", drawn{YieldKey{"17001", "all", crop.Corn}, corn}, drawn{YieldKey{"19001", "all", crop.Corn}, corn}, 0.45 * 0.45},
		{"corn of two other States", drawn{YieldKey{"06001", "all", crop.Corn}, west}, drawn{YieldKey{"48001", "all", crop.Corn}, west}, 0.19},
		{"soybeans of two States", drawn{YieldKey{"17001", "all", crop.Soybeans}, soybeans}, drawn{YieldKey{"19001", "all", crop.Soybeans}, soybeans}, 0.14},
		{"wheat of two States", drawn{YieldKey{"40001", "all", crop.Wheat}, wheat}, drawn{YieldKey{"48001", "all", crop.Wheat}, wheat}, 0.08},
		{"grain sorghum of two States", drawn{YieldKey{"40001", "all", crop.GrainSorghum}, sorghum}, drawn{YieldKey{"48001", "all", crop.GrainSorghum}, sorghum}, 0.10},
		{"corn and soybeans of one county", drawn{YieldKey{"17001", "all", crop.Corn}, corn}, drawn{YieldKey{"17001", "all", crop.Soybeans}, soybeans}, together},
		{"irrigated and nonirrigated corn", drawn{YieldKey{"17001", "irrigated", crop.Corn}, corn}, drawn{YieldKey{"17001", "nonirrigated", crop.Corn}, corn}, 0.41},
		{"irrigated and nonirrigated soybeans", drawn{YieldKey{"17001", "irrigated", crop.Soybeans}, soybeans}, drawn{YieldKey{"17001", "nonirrigated", crop.Soybeans}, soybeans}, 0.45},
		{"irrigated and nonirrigated wheat", drawn{YieldKey{"40001", "irrigated", crop.Wheat}, wheat}, drawn{YieldKey{"40001", "nonirrigated", crop.Wheat}, wheat}, 0.51},
		{"irrigated and nonirrigated grain sorghum", drawn{YieldKey{"48001", "irrigated", crop.GrainSorghum}, sorghum}, drawn{YieldKey{"48001", "nonirrigated", crop.GrainSorghum}, sorghum}, 0.49},
		{"irrigated wheat of two counties of one State", drawn{YieldKey{"40001", "irrigated", crop.Wheat}, wheat}, drawn{YieldKey{"40003", "irrigated", crop.Wheat}, wheat}, 0.44},
		{"irrigated corn of two counties of one State: as the practices", drawn{YieldKey{"17001", "irrigated", crop.Corn}, corn}, drawn{YieldKey{"17003", "irrigated", crop.Corn}, corn}, 0.41},
		{"after harvest: corn yield with corn price", drawn{YieldKey{"99001", "all", crop.Corn}, after}, drawn{key: YieldKey{Commodity: crop.Corn}}, 0},
		{"after harvest: corn of two counties of one State", drawn{YieldKey{"99001", "all", crop.Corn}, after}, drawn{YieldKey{"99003", "all", crop.Corn}, after}, 0.2},
		{"after harvest: corn of two States", drawn{YieldKey{"17001", "all", crop.Corn}, after}, drawn{YieldKey{"19001", "all", crop.Corn}, after}, 0},
		{"after harvest: corn and soybeans", drawn{YieldKey{"99001", "all", crop.Corn}, after}, drawn{YieldKey{"99001", "all", crop.Soybeans}, after}, 0.67},
	} {
		var got, means, spreads []float64
		for seed := range uint64(seeds) {
			s := newSampler(t, NewScenarios(seed, 4096))
			a := c.a.shocks(s)
			got = append(got, stat.Correlation(a, c.b.shocks(s), nil))
			mean, sd := stat.PopMeanStdDev(a, nil)
			means, spreads = append(means, mean), append(spreads, sd)
		}
		mean, sd := stat.MeanStdDev(got, nil)
		if math.Abs(mean-c.want) > tolerance {
			t.Errorf("%s: got %.4f, want %.4f", c.what, mean, c.want)
		}
		t.Logf("%s: %.4f (%.4f), intended %.4f", c.what, mean, sd/math.Sqrt(seeds), c.want)
		if mean, sd := stat.Mean(means, nil), stat.Mean(spreads, nil); math.Abs(mean) > 2e-3 || math.Abs(sd-1) > 5e-3 {
			t.Errorf("%s: mean %g and spread %g of a standard normal", c.what, mean, sd)
		}
	}
}

// drawn is a county yield, or the price of a commodity where no county is named.
type drawn struct {
	key YieldKey
	dep YieldDependence
}

func (d drawn) shocks(s *Sampler) []float64 {
	if d.key.County == "" {
		return s.PriceShock(d.key.Commodity)
	}
	return s.YieldShock(d.key, d.dep).All()
}

// Impossible wishes are cut, never made into spreads above one.
func TestLoadingsAlwaysHaveUnitVariance(t *testing.T) {
	for _, dep := range []YieldDependence{{}, {Price: -0.9, Counties: 0.31}, {Price: -2}, {Counties: 3, Practices: 0.6}, {Price: 0.3, Counties: -1, Practices: -1}, {Counties: 0.7, Practices: 0.6}, {Practices: 1}, {States: 0.5, Counties: 0.3}, {States: 2}, {Price: -0.1, States: 0.2, Counties: 0.5, Practices: 0.4}} {
		for _, split := range []bool{false, true} {
			l := dep.loadings(split)
			if v := l.price*l.price + l.nation*l.nation + l.state*l.state + l.county*l.county + l.practice*l.practice; math.Abs(v-1) > 1e-12 {
				t.Errorf("%+v: variance %g, want 1", dep, v)
			}
		}
	}
}

// The shocks of one key are the same whatever else is asked for,
// in whatever order, by however many goroutines.
func TestAShockDependsOnNothingElse(t *testing.T) {
	d := NewScenarios(4, 512)
	dep := YieldDependence{Price: -0.25, States: 0.14, Counties: 0.31, Practices: 0.6}
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
				crowd.YieldShock(YieldKey{"17003", "all", c}, dep).All()
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
	}{{crop.Corn, crop.Soybeans, 0.6}, {crop.Corn, crop.Lentils, 0.4}, {crop.Corn, crop.Wheat, 0.71}} {
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
