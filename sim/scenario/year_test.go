package scenario_test

import (
	"math"
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/odds"
	"fencerow/sim/position"
	"fencerow/sim/scenario"
)

// drawnFrom draws a crop year of corn from few scenarios.
func drawnFrom(t *testing.T, from position.Sources, y crop.CropYear) *scenario.Year {
	t.Helper()
	year, err := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256}).Year(y)
	if err != nil {
		t.Fatal(err)
	}
	return year
}

// cornProjected has final corn prices to 2025 (4.53, 6.00, 6.54, 4.55, 4.24, 4.15 from 2020
// on) and one projection each for 2026 to 2028.
func cornProjected(price, volatility float64) position.Sources {
	m := invented.Market("2026-11-10")
	for y := 2026; y <= 2028; y++ {
		invented.Project(m, crop.Corn, y, price, volatility)
	}
	return position.Sources{Market: m}
}

func corn(t *testing.T, from position.Sources, y crop.CropYear) (position.National, position.Price) {
	t.Helper()
	n, err := position.NationalOf(from.Market, crop.Corn, y)
	if err != nil {
		t.Fatal(err)
	}
	price, ok := from.Price(crop.Corn, y, n.Terms.PriceDecimals)
	if !ok {
		t.Fatalf("no price of %d", y)
	}
	return n, price
}

// The reference price of 2028 looks back at 2022 to 2026. By hand, with 2026 at 9.00:
// 6.54, 4.55 and 4.24 are left of 6.54, 4.55, 4.24, 4.15, 9.00; they average 5.11; 88
// percent are 4.4968, so 4.50 (P.L. 119-21). At 4.80 the middle three average 4.53, of
// which 88 percent are less than the 4.10 of the statute. The benchmark price is the
// average of the middle three once each is at least the reference price: of 6.54, 4.55, 4.50,
// 4.50, 9.00 it is 5.1967, so 5.20; of 6.54, 4.55, 4.24, 4.15, 4.80 it is 4.53.
func TestReferencePriceOfAPathByHand(t *testing.T) {
	for projected, want := range map[float64]struct{ target, benchmark float64 }{9.00: {4.50, 5.20}, 4.80: {4.10, 4.53}} {
		from := cornProjected(projected, 0)
		year := drawnFrom(t, from, 2028)
		n, _ := corn(t, from, 2028)
		targets, benchmarks := year.Targets(n), year.BenchmarkPrices(n)
		if len(targets) != 256 || len(benchmarks) != 256 {
			t.Fatalf("%d reference prices, %d benchmark prices, want 256 of both", len(targets), len(benchmarks))
		}
		for i := range targets {
			if targets[i] != want.target || benchmarks[i] != want.benchmark {
				t.Fatalf("2026 at %.2f, scenario %d: %v and %v, by hand %v and %v", projected, i, targets[i], benchmarks[i], want.target, want.benchmark)
			}
		}
	}
}

// With a standard deviation each path has the reference price and the benchmark price of its
// own 2026.
// Worked out here from the cents of that price alone, by the ranks that it can take beside
// 6.54, 4.55, 4.24, 4.15; and for the benchmark each at least the reference price.
func TestReferencePriceFollowsEachPath(t *testing.T) {
	from := cornProjected(6.00, 0.25)
	paths := scenario.NewPaths(from, scenario.Settings{Seed: 1, Draws: 256})
	earlier, err := paths.Year(2026)
	if err != nil {
		t.Fatal(err)
	}
	later, err := paths.Year(2028)
	if err != nil {
		t.Fatal(err)
	}
	_, price := corn(t, from, 2026)
	n, _ := corn(t, from, 2028)
	prices, targets, benchmarks := earlier.Prices(crop.Corn, price), later.Targets(n), later.BenchmarkPrices(n)
	distinct := map[float64]bool{}
	for i, p := range prices {
		middle := 4.55 + 4.24 + min(max(p, 4.15), 6.54) // 4.15 and 6.54 fall out where p does not
		want := max(4.10, math.Floor(100*0.88*middle/3+0.5+1e-9)/100)
		if math.Abs(targets[i]-want) > 1e-9 {
			t.Fatalf("scenario %d: 2026 at %v, reference price of 2028 %v, by hand %v", i, p, targets[i], want)
		}
		five := []float64{max(6.54, want), max(4.55, want), max(4.24, want), max(4.15, want), max(p, want)}
		slices.Sort(five)
		if want := math.Floor(100*(five[1]+five[2]+five[3])/3+0.5+1e-9) / 100; math.Abs(benchmarks[i]-want) > 1e-9 {
			t.Fatalf("scenario %d: 2026 at %v, benchmark price of 2028 %v, by hand %v", i, p, benchmarks[i], want)
		}
		distinct[targets[i]] = true
	}
	if len(distinct) < 10 {
		t.Errorf("only %d reference prices: nothing was drawn", len(distinct))
	}
}

// Where all five prices are known, nothing differs from path to path.
func TestKnownPricesMakeNoPaths(t *testing.T) {
	from := cornProjected(4.80, 0.2)
	n, _ := corn(t, from, 2026)
	if year := drawnFrom(t, from, 2026); year.Targets(n) != nil || year.BenchmarkPrices(n) != nil {
		t.Error("2026 looks back at 2020 to 2024, which are known")
	}
}

// A known price is the same in every scenario; one's own outcomes come again as they are,
// alike often, in the order of the shocks.
func TestPricesKnownAndSampled(t *testing.T) {
	from := cornProjected(4.80, 0.2)
	_, known := corn(t, from, 2025)
	for i, p := range drawnFrom(t, from, 2025).Prices(crop.Corn, known) {
		if p != 4.15 {
			t.Fatalf("scenario %d: the known price is %v, want 4.15", i, p)
		}
	}
	sample := []float64{3.10, 3.50, 4.00, 4.90}
	from.Market.Outlook[crop.Corn][2026] = farm.PriceOutlook{Figure: farm.Figure{Value: 3.875}, AsOf: from.Market.AsOf, Samples: sample}
	_, own := corn(t, from, 2026)
	count := map[float64]int{}
	for _, p := range drawnFrom(t, from, 2026).Prices(crop.Corn, own) {
		count[p]++
	}
	for _, p := range sample {
		if count[p] != 256/len(sample) {
			t.Errorf("%v comes %d times in 256, want 64: %v", p, count[p], count)
		}
	}
}

// A county yield of no standard deviation is its mean in every scenario, to the decimals of the table;
// with a standard deviation the scenarios average the mean within four standard errors of so many drawn
// alone, 4 x 20/16.
func TestYieldsOfACounty(t *testing.T) {
	y := drawnFrom(t, cornProjected(4.80, 0.2), 2026)
	unit := position.Practice{Unit: position.CountyUnit{County: "99001", Commodity: crop.Corn, Practice: farm.AllPractices, CropYear: 2026}}
	unit.Outlook = position.Yield{Yield: odds.Yield{Mean: 188.125}, Stage: odds.Final}
	for i, yield := range y.Yields(2, unit) {
		if yield != 188.13 {
			t.Fatalf("scenario %d: %v, want 188.13", i, yield)
		}
	}
	unit.Unit.County = "99003"
	unit.Outlook = position.Yield{Yield: odds.Yield{Mean: 188, SD: 20, Shape: odds.ShapeNormal}, Stage: odds.BeforeHarvest}
	drawn := y.Yields(2, unit)
	if mean := odds.Mean(drawn); math.Abs(mean-188) > 4*20/16 || slices.Min(drawn) > 188-2*20 || slices.Max(drawn) < 188+2*20 {
		t.Errorf("mean %.3f, from %v to %v; want 188, and some beyond two standard deviations of 20 on both sides", mean, slices.Min(drawn), slices.Max(drawn))
	}
}

// The benchmark yield of 2028 looks back at 2022 to 2026, each with its trend of 1.90 bushels a
// year up to 2028: 185.50 + 6 x 1.90 = 196.90, 172.73 + 5 x 1.90 = 182.23, 186.90 + 4 x 1.90 =
// 194.50 and 181.00 + 3 x 1.90 = 186.70 are known; that of 2026, drawn, counts with 2 x 1.90 more.
func TestBenchmarkYieldFollowsEachPath(t *testing.T) {
	q := cases.SixYears(0.15)
	paths := scenario.NewPaths(q.Sources(), scenario.Settings{Seed: 1, Draws: 256})
	practice := func(y crop.CropYear) (*scenario.Year, position.Practice) {
		bases, err := q.Sources().CommodityBases(q.Operation.Farms[0], y)
		if err != nil {
			t.Fatal(err)
		}
		year, err := paths.Year(y)
		if err != nil {
			t.Fatal(err)
		}
		return year, bases[0].Bases[0].Practices[0]
	}
	earlier, of2026 := practice(2026)
	later, of2028 := practice(2028)
	yields, benchmarks := earlier.Yields(2, of2026), later.BenchmarkYields(of2028, 2)
	distinct := map[float64]bool{}
	for i, y := range yields {
		five := []float64{196.90, 182.23, 194.50, 186.70, y + 2*1.90}
		slices.Sort(five)
		want := math.Floor(100*(five[1]+five[2]+five[3])/3+0.5+1e-7) / 100
		if math.Abs(benchmarks[i]-want) > 1e-9 {
			t.Fatalf("scenario %d: 2026 at %v, benchmark yield of 2028 %v, by hand %v", i, y, benchmarks[i], want)
		}
		distinct[want] = true
	}
	if len(distinct) < 10 {
		t.Errorf("only %d benchmark yields: nothing was drawn", len(distinct))
	}
	if earlier.BenchmarkYields(of2026, 2) != nil {
		t.Error("the benchmark yield of 2026 is known, and differs from path to path")
	}
}
