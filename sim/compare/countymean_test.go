package compare_test

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/odds"
)

// otherOdds change a question with the usual odds into one with others. Own outcomes are ten
// prices of 4.40 and ten of 4.60.
var otherOdds = map[string]func(*answer.Question){
	"the usual odds":            func(*answer.Question) {},
	"past years drawn again":    func(c *answer.Question) { c.Model = answer.PastHistory },
	"extremes together":         func(c *answer.Question) { c.Tail = answer.StudentTTail },
	"own outcomes of the price": ownOutcomes,
}

func ownOutcomes(c *answer.Question) {
	o := c.Market.Outlook[crop.Corn][2026]
	o.Volatility = nil
	for range 10 {
		o.Samples = append(o.Samples, 4.40, 4.60)
	}
	c.Market.Outlook[crop.Corn][2026] = o
}

// trendAndBenchmark asks about corn of 2026 at a price of 4.50 that is told to be sure and not
// to hang on the yield. The county's yields of 1995 to 2024 rise by 1.8 a year from 110, and
// stand 4 above, 4 below and on that line in turn, 2012 far below: the robust trend of 2026 is
// 110 + 31 x 1.8 = 165.80. Half-way to the benchmark yield of 187.30 that is 176.55. spread is
// the yield's standard deviation; nil: by the county's own yields.
func trendAndBenchmark(spread *crop.Yield) answer.Question {
	m := invented.Market("2026-05-12")
	m.Correlation = map[crop.Commodity]map[string]float64{crop.Corn: {farm.CountyYieldCorrelation: 0}}
	invented.Project(m, crop.Corn, 2026, 4.50, 0)
	yield := invented.CornYield(farm.YieldOutlook{SD: spread})
	yield.History = invented.LongHistory()
	for y := range yield.History {
		yield.History[y] -= 20
	}
	return cases.Question(m, invented.Book(yield), invented.OneFarm("0417", invented.Base(crop.Corn, 100, 150)))
}

// fourErrors is four standard errors of an average over independent draws. Drawn past years
// keep to it too: all thirteen together average the mean, and each comes about as often.
func fourErrors(sd float64) float64 { return 4 * sd / math.Sqrt(answer.DefaultDraws) }

// The mean county yield, half-way between trend and benchmark, is the same whatever odds
// are asked for: as shown, with its rule and spread, and on average over the yields drawn.
func TestSameMeanCountyYieldWhateverOdds(t *testing.T) {
	const want = 176.55
	usual := only(t, trendAndBenchmark(nil)).Bases[0].CountyYield
	if math.Abs(float64(usual.Mean)-want) > 1e-9 || !strings.Contains(usual.MeanFrom, "That gives 165.8, moved half-way to the benchmark of 187.3") {
		t.Fatalf("%v, %s; want %v", usual.Mean, usual.MeanFrom, want)
	}
	for name, change := range otherOdds {
		c := trendAndBenchmark(nil)
		change(&c)
		shown := only(t, c).Bases[0].CountyYield
		if shown.Mean != usual.Mean || shown.SD != usual.SD || shown.MeanFrom != usual.MeanFrom {
			t.Errorf("%s: mean %v, spread %v, %s; the usual odds have %v, %v, %s", name, shown.Mean, shown.SD, shown.MeanFrom, usual.Mean, usual.SD, usual.MeanFrom)
		}
		drawn := odds.Mean(drawnYields(t, c))
		t.Logf("%s: %.2f shown, %.3f drawn", name, shown.Mean, drawn)
		if math.Abs(drawn-want) > fourErrors(float64(usual.SD)) {
			t.Errorf("%s: the yields drawn average %v, want %v within %.2f", name, drawn, want, fourErrors(float64(usual.SD)))
		}
	}
}

// drawnYields are the county yields by scenario of the one base.
func drawnYields(t *testing.T, c answer.Question) []crop.Yield {
	t.Helper()
	run, err := compare.NewYearRun(c, 2026)
	if err != nil {
		t.Fatal(err)
	}
	bases, err := c.Sources().CommodityBases(c.Operation.Farms[0], 2026)
	if err != nil {
		t.Fatal(err)
	}
	return run.Year.Yields(bases[0].National.Terms.YieldDecimals, bases[0].Bases[0].Practices[0])
}

// ARC-CO pays on that mean too. At a spread of 1 bushel it always pays and hardly ever the
// most, so its average is the payment at the averages: the guarantee is 0.90 x 187.30 x 5.03 =
// 847.91, the revenue 176.55 x 4.50 = 794.475; 0.85 x (847.91 - 794.475) = 45.42 per base
// acre. At the trend alone it would be the most, 0.85 x 113.05 = 96.09.
func TestSameMeanPaymentWhateverOdds(t *testing.T) {
	const want, rounding = 0.85 * (847.91 - 794.475), 0.005
	for name, change := range otherOdds {
		c := trendAndBenchmark(invented.Number(1))
		change(&c)
		paid := only(t, c).Programs.Of(farm.ARCCO)
		t.Logf("%s: ARC-CO averages %.3f, by hand %.3f", name, paid.Mean, want)
		if paid.ChanceOfPayment < 1 || paid.ChanceOfMaximum > 0.001 {
			t.Errorf("%s: pays in %v, the most in %v of scenarios: the average is not that of the means", name, paid.ChanceOfPayment, paid.ChanceOfMaximum)
		}
		if within := rounding + fourErrors(float64(paid.SD)); math.Abs(float64(paid.Mean)-want) > within {
			t.Errorf("%s: ARC-CO averages %v, want %v within %.3f", name, paid.Mean, want, within)
		}
	}
}
