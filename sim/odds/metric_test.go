package odds

import (
	"encoding/json"
	"math"
	"os"
	"slices"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/sim/odds/scores"
)

// metricCase is one case of testdata/closedforms/metrics.json, whose source it
// names.
type metricCase struct {
	ID        string          `json:"id"`
	Inputs    json.RawMessage `json:"inputs"`
	Expected  json.RawMessage `json:"expected"`
	Tolerance float64         `json:"tolerance_rel"`
}

// metricCases reads the cases; inputs and expected of one go where stated.
func readMetricCase(t *testing.T, id string, inputs, expected any) (tolerance float64) {
	t.Helper()
	data, err := os.ReadFile("../../testdata/closedforms/metrics.json")
	if err != nil {
		t.Fatal(err)
	}
	var file struct{ Cases []metricCase }
	if err := json.Unmarshal(data, &file); err != nil {
		t.Fatal(err)
	}
	for _, c := range file.Cases {
		if c.ID != id {
			continue
		}
		if err := json.Unmarshal(c.Inputs, inputs); err != nil {
			t.Fatal(err)
		}
		if err := json.Unmarshal(c.Expected, expected); err != nil {
			t.Fatal(err)
		}
		return c.Tolerance
	}
	t.Fatalf("no case %s", id)
	return 0
}

func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if math.Abs(got-want) > tolerance*max(1e-3, math.Abs(want)) {
		t.Errorf("%s: got %.12g, want %.12g, difference %.2g, tolerance %g of it", what, got, want, got-want, tolerance)
	}
}

// Certainty equivalents, worst share, cost of the wrong pick and correlation of
// two paired samples.
func TestMetricsOfTwoSamples(t *testing.T) {
	var in struct {
		A, B   []float64
		Wealth float64
	}
	var want map[string]json.RawMessage
	tolerance := readMetricCase(t, "sample_metrics", &in, &want)
	number := func(key string) (x float64) {
		if err := json.Unmarshal(want[key], &x); err != nil {
			t.Fatal(err)
		}
		return x
	}
	for name, values := range map[string][]float64{"A": in.A, "B": in.B} {
		var w map[string]float64
		if err := json.Unmarshal(want[name], &w); err != nil {
			t.Fatal(err)
		}
		p := PercentilesOf(values)
		for what, pair := range map[string][2]float64{
			"mean": {SureAmount(values, in.Wealth, 0), w["mean"]}, "P_pay": {Share(values, func(x float64) bool { return x > 0 }), w["P_pay"]},
			"ce_crra1": {SureAmount(values, in.Wealth, 1), w["ce_crra1"]}, "ce_crra2": {SureAmount(values, in.Wealth, 2), w["ce_crra2"]},
			"ce_crra4": {SureAmount(values, in.Wealth, 4), w["ce_crra4"]}, "ce_cara_0_01": {SureAmountAbsolute(values, 0.01), w["ce_cara_0_01"]},
			"cvar_lower_20": {MeanOfWorst(values, 0.20), w["cvar_lower_20"]}, "cvar_lower_25": {MeanOfWorst(values, 0.25), w["cvar_lower_25"]},
			"q10": {p[1], w["q10_type7"]}, "q50": {p[3], w["q50_type7"]}, "q90": {p[5], w["q90_type7"]},
		} {
			near(t, name+" "+what, pair[0], pair[1], tolerance)
		}
	}
	near(t, "regret A", CostOfWrongPick(in.A, in.B), number("mean_regret_A"), tolerance)
	near(t, "regret B", CostOfWrongPick(in.B, in.A), number("mean_regret_B"), tolerance)
	near(t, "correlation", stat.Correlation(in.A, in.B, nil), number("pearson"), tolerance)
}

// pitLognormal is PIT under a price of known mean and standard deviation of its logarithm:
// the chance of less than observed.
func pitLognormal(mean, sigma, observed float64) float64 {
	return below((math.Log(observed/mean) + sigma*sigma/2) / sigma)
}

// crpsLognormal is CRPS of a price of known mean and standard deviation of its logarithm.
//
//	CRPS = y (2N(w) - 1) - 2 mean (N(w-s) + N(s/sqrt 2) - 1),  w = (ln y - m)/s
func crpsLognormal(mean, sigma, observed float64) float64 {
	w := (math.Log(observed/mean) + sigma*sigma/2) / sigma
	return observed*(2*below(w)-1) - 2*mean*(below(w-sigma)+below(sigma/math.Sqrt2)-1)
}

func TestScoresOfALognormalForecast(t *testing.T) {
	const mean, sigma = 4.20, 0.18
	var at, want []float64
	tolerance := readMetricCase(t, "crps_lognormal", &at, &want)
	for i, y := range at {
		near(t, "CRPS", crpsLognormal(mean, sigma, y), want[i], tolerance)
	}
	tolerance = readMetricCase(t, "pit_lognormal", &at, &want)
	for i, y := range at {
		near(t, "PIT", pitLognormal(mean, sigma, y), want[i], tolerance)
	}
	// the scenarios' own scores come near them
	d := NewScenarios(1, DefaultScenarios)
	prices := make([]float64, d.N())
	Price{RestMean: mean, Sigma: sigma}.Draw(prices, newSampler(t, d).PriceShock(crop.Corn), nil)
	for _, y := range at {
		near(t, "CRPS of draws", scores.CRPS(prices, y), crpsLognormal(mean, sigma, y), 1e-3)
		near(t, "PIT of draws", scores.PIT(prices, y), pitLognormal(mean, sigma, y), 1e-3)
	}
}

// The bivariate normal by quadrature, N2(a,b;r) = integral of the density at x
// times N((b - r x)/sqrt(1-r^2)) up to a, and by scenarios of a price and a yield.
func TestBivariateNormal(t *testing.T) {
	var in [][3]float64
	var want []float64
	tolerance := readMetricCase(t, "bvn", &in, &want)
	d := NewScenarios(1, DefaultScenarios)
	s := newSampler(t, d)
	price := s.PriceShock(crop.Corn)
	for i, c := range in {
		a, b, r := c[0], c[1], c[2]
		got := quad.Fixed(func(x float64) float64 { return density(x) * below((b-r*x)/math.Sqrt(1-r*r)) }, -9, a, 400, nil, 0)
		near(t, "bivariate normal", got, want[i], tolerance)
		yield := s.YieldShock(YieldKey{"99001", "all", crop.Corn}, YieldDependence{Price: r, Counties: r * r}).All()
		both := make([]float64, d.N())
		for j := range both {
			if price[j] < a && yield[j] < b {
				both[j] = 1
			}
		}
		if m := Summarize(both, d); math.Abs(m.Mean-want[i]) > 4*m.StandardError+1e-4 {
			t.Errorf("draws: %.5f, want %.5f, standard error %.5f", m.Mean, want[i], m.StandardError)
		}
	}
	var p, q []float64
	tolerance = readMetricCase(t, "norminv", &p, &q)
	for i := range p {
		near(t, "normal quantile", quantile(p[i]), q[i], tolerance)
	}
}

// The more averse, the less a risk is worth; a sure payment is worth itself, the
// worst of all is the mean, and more at every chance dominates.
func TestMetricsByDirection(t *testing.T) {
	income := []float64{300, 420, 500, 610, 700, 820}
	last := math.Inf(1)
	for _, r := range []float64{0, 0.5, 1, 2, 4} {
		now := SureAmount(income, 100, r)
		if now >= last {
			t.Errorf("aversion %g: %g after %g", r, now, last)
		}
		last = now
		near(t, "sure amount", SureAmount([]float64{80, 80, 80}, 400, r), 80, 1e-12)
	}
	near(t, "worst of all", MeanOfWorst(income, 1), Mean(income), 1e-12)
	more := []float64{310, 421, 505, 610, 700, 900}
	steady := []float64{559, 559, 559, 559, 559, 559} // a higher mean, less at the top
	if !Dominates(more, income, false, 0) || !Dominates(more, income, true, 0) || Dominates(income, more, false, 0) || Dominates(steady, income, false, 0) || !Dominates(steady, income, true, 0) {
		t.Error("dominance")
	}
	if !math.IsNaN(SureAmount([]float64{-500, 10}, 400, 2)) {
		t.Error("wealth below zero has a sure amount")
	}
}

// Published odds of prices, each inside the band it states: University of
// Illinois, farmdoc daily (4):98, 28 May 2014 (wheat mean 6.00, reference price
// 5.50: chance 0.31, rate 0.214, spreads of 0.15 to 0.19 around both; soybeans
// mean 11.00, reference price 8.40: 0.04 and 0.028, 0.145 to 0.16); the same, 2013
// Corn Prices Suggested by History (mean 5.952: 0.08 below 4.50 and 0.19 below
// 5.00, 0.18 gives both to 0.01); Michigan State University, Probabilistic Price
// Forecasts for Corn, 30 April 2013 (futures 5.5675, sd 1.2394: nine percentiles
// within 0.02).
func TestPublishedOddsOfPrices(t *testing.T) {
	d := NewScenarios(1, DefaultScenarios)
	z := newSampler(t, d).PriceShock(crop.Corn)
	draw := func(mean, sigma float64) []float64 {
		dst := make([]float64, d.N())
		Price{RestMean: mean, Sigma: sigma}.Draw(dst, z, nil)
		return dst
	}
	pays := func(mean, sigma, reference float64) (chance, rate float64) {
		prices := draw(mean, sigma)
		rates := make([]float64, len(prices))
		for i, p := range prices {
			rates[i] = max(0, reference-p)
		}
		return Share(rates, func(x float64) bool { return x > 0 }), Mean(rates)
	}
	for _, c := range []struct{ mean, reference, low, high, chance, rate float64 }{{6, 5.5, 0.15, 0.19, 0.31, 0.214}, {11, 8.4, 0.145, 0.16, 0.04, 0.028}} {
		lowChance, lowRate := pays(c.mean, c.low, c.reference)
		highChance, highRate := pays(c.mean, c.high, c.reference)
		if lowChance > c.chance+0.005 || highChance < c.chance || lowRate > c.rate || highRate < c.rate {
			t.Errorf("mean %g: chances %.3f to %.3f, rates %.3f to %.3f; want %g and %g between", c.mean, lowChance, highChance, lowRate, highRate, c.chance, c.rate)
		}
	}
	corn := draw(5.952, 0.18)
	for limit, want := range map[float64]float64{4.50: 0.08, 5.00: 0.19} {
		if got := Share(corn, func(x float64) bool { return x < limit }); math.Abs(got-want) > 0.01 {
			t.Errorf("chance below %g: %.4f, want %g", limit, got, want)
		}
	}
	ratio := 1.2394 / 5.5675
	drawn := draw(5.5675, math.Sqrt(math.Log1p(ratio*ratio)))
	for percent, want := range map[int]float64{10: 4.10, 20: 4.52, 30: 4.85, 40: 5.14, 50: 5.43, 60: 5.75, 70: 6.11, 80: 6.55, 90: 7.22} {
		if got := slices.Sorted(slices.Values(drawn))[percent*len(drawn)/100]; math.Abs(got-want) > 0.02 {
			t.Errorf("percentile %d: %.3f, want %g", percent, got, want)
		}
	}
}
