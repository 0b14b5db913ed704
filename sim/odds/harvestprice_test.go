package odds

import (
	"math"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
)

// The harvest price is a standard normal that correlates with the price as its row says, and
// with a county yield through the price; asking for it changes no other shock.
func TestHarvestPriceShock(t *testing.T) {
	const near, rho = 0.02, -0.40
	d := NewScenarios(7, 65536)
	fresh := func() *Sampler {
		s, err := NewSampler(d, 2027, nil)
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	for _, c := range []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat} {
		yieldOf := func(s *Sampler) []float64 {
			return s.YieldShock(YieldKey{County: "17113", Practice: "all", Commodity: c}, YieldDependence{Price: rho, States: 0.2, Counties: 0.5}).All()
		}
		untouched, s := fresh(), fresh()
		yieldBefore, priceBefore := yieldOf(untouched), untouched.PriceShock(c)
		harvest, price, yield := s.HarvestPriceShock(c).All(), s.PriceShock(c), yieldOf(s)
		if !slices.Equal(yield, yieldBefore) || !slices.Equal(price, priceBefore) {
			t.Errorf("%s: price or county yield moves when the harvest price is asked for", c)
		}
		if m, sd := stat.PopMeanStdDev(harvest, nil); math.Abs(m) > near || math.Abs(sd-1) > near {
			t.Errorf("%s: mean %v, standard deviation %v", c, m, sd)
		}
		want := HarvestPriceCorrelation()
		if r := stat.Correlation(harvest, price, nil); math.Abs(r-want) > near {
			t.Errorf("%s: correlation with the price %v, want %v", c, r, want)
		}
		if r := stat.Correlation(harvest, yield, nil); math.Abs(r-want*rho) > near {
			t.Errorf("%s: correlation with a county yield %v, want %v", c, r, want*rho)
		}
	}
}
