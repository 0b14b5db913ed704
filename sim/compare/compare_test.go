package compare_test

import (
	"math"
	"runtime"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/explain"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// The figures that need no scenario: 4.42 and 5.03 are printed by CBO, February
// 2026, and recomputed in program; 187.30 x 5.03 = 942.119, 90 percent 847.91.
func TestCompareShowsTheLawsFigures(t *testing.T) {
	p := only(t, cases.Corn())
	if p.EffectiveReferencePrice.Value != 4.42 || p.BenchmarkPrice.Value != 5.03 {
		t.Errorf("effective reference price %v, benchmark price %v; want 4.42, 5.03", p.EffectiveReferencePrice.Value, p.BenchmarkPrice.Value)
	}
	b := p.Bases[0]
	if *b.BenchmarkYield != 187.30 || *b.BenchmarkRevenue != 942.12 || *b.Guarantee != 847.91 {
		t.Errorf("benchmark yield %v, revenue %v, guarantee %v; want 187.30, 942.12, 847.91", *b.BenchmarkYield, *b.BenchmarkRevenue, *b.Guarantee)
	}
	if got := math.Abs(float64(p.MYA.SD.Value) - 0.3491); got > 0.0005 { // 4.80 x sqrt(exp(0.07263^2)-1) = 0.34908
		t.Errorf("price spread %v, want 0.3491", p.MYA.SD.Value)
	}
}

// Corn 4.80, benchmark 187.3 x 5.03, county yield 188, log price SD 0.07069:
// with a normal yield ARC-CO averages 6.7 $/acre at a yield SD of 3 percent,
// 10.2 at 6, 13.1 at 8, 17.7 at 11 (after the 85 percent; the project's notes on
// the stochastic model, computed apart).
func TestHigherYieldSDPaysMoreUnderARCCO(t *testing.T) {
	const within = 0.12
	for _, c := range []struct{ percent, want float64 }{{3, 6.7}, {6, 10.2}, {8, 13.1}, {11, 17.7}} {
		q := cases.Corn()
		q.Market = invented.Market("2026-11-10")
		invented.Project(q.Market, crop.Corn, 2026, 4.80, 0.07069)
		q.Draws = 65536
		q.Counties = invented.Book(invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), KnownFrom: "local_harvest", SD: invented.Number(188 * c.percent / 100), Shape: "normal"}))
		if got := float64(only(t, q).Programs.Of(farm.ARCCO).Mean); math.Abs(got-c.want) > within {
			t.Errorf("yield spread %v percent: ARC-CO averages %.2f, want %v", c.percent, got, c.want)
		}
	}
}

// Corn at 4.80 (the same notes): PLC pays in 29 of 100 with September's SD
// and 13 with November's.
func TestPriceSDFollowsTheMarketsDate(t *testing.T) {
	for asOf, want := range map[string]float64{"2026-09-11": 0.29, "2026-11-10": 0.13} {
		m := invented.Market(asOf)
		invented.Project(m, crop.Corn, 2026, 4.80, -1)
		q := cases.Corn()
		q.Market = m
		if got := float64(only(t, q).Programs.Of(farm.PLC).ChanceOfPayment); math.Abs(got-want) > 0.01 {
			t.Errorf("market of %s: PLC pays in %.3f of outcomes, want %v", asOf, got, want)
		}
	}
}

// With no variation anywhere, compare and explain are the same arithmetic.
func TestNoVariationEqualsExplain(t *testing.T) {
	for _, price := range []float64{2.20, 3.50, 3.99, 4.05, 4.41, 4.80, 7.00} {
		for _, yield := range []float64{90, 150.55, 171.23, 188, 240} {
			m := invented.Market("2026-11-10")
			invented.Project(m, crop.Corn, 2026, price, 0)
			irrigated := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(yield), SD: invented.Number(0)})
			irrigated.Practice = farm.Irrigated
			dry := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(yield * 0.6), SD: invented.Number(0)})
			dry.Practice, dry.Adjusted = farm.Nonirrigated, map[crop.CropYear][5]float64{2026: {101.3, 99.1, 120.7, 110.2, 95.4}}
			alder := farm.County{Code: "99001", Yields: []farm.CountyYield{invented.CornYield(farm.YieldOutlook{Yield: invented.Number(yield), SD: invented.Number(0)})}}
			birch := farm.County{Code: "99003", Yields: []farm.CountyYield{irrigated, dry}}
			away := invented.Base(crop.Corn, 33.33, 151)
			away.County, away.IrrigatedShare, away.Tract = "99003", invented.Number(0.35), "7"
			c := cases.Question(m, invented.BookOf(alder, birch), invented.OneFarm("0417", invented.Base(crop.Corn, 120, 150), away))
			checkNoVariation(t, c, price, yield)
		}
	}
}

func checkNoVariation(t *testing.T, c answer.Question, price, yield float64) {
	t.Helper()
	f := ask(t, c).CropYears[0].Farms[0]
	e, err := explain.Explain(c, c.Operation.Farms[0], crop.Corn, 2026, explain.Given{MYA: price, CountyYield: explain.CountyYields{
		{County: "99001", Practice: ""}: yield, {County: "99003", Practice: farm.Irrigated}: yield, {County: "99003", Practice: farm.Nonirrigated}: yield * 0.6}})
	if err != nil {
		t.Fatal(err)
	}
	p := f.Commodities[0]
	for name, pair := range map[string][2]answer.Dollars{
		"PLC per base acre":    {p.Programs.Of(farm.PLC).Mean, *e.Programs.Of(farm.PLC).PaymentPerBaseAcre},
		"ARC-CO per base acre": {p.Programs.Of(farm.ARCCO).Mean, *e.Programs.Of(farm.ARCCO).PaymentPerBaseAcre},
		"PLC in total":         {*f.Elections[0].Mean, *e.Programs.Of(farm.PLC).Payment},
		"ARC-CO in total":      {*f.Elections[1].Mean, *e.Programs.Of(farm.ARCCO).Payment},
		"PLC after limit":      {*f.Elections[0].MeanAfterLimit, *e.Programs.Of(farm.PLC).PaymentAfterLimit},
		"ARC-CO after limit":   {*f.Elections[1].MeanAfterLimit, *e.Programs.Of(farm.ARCCO).PaymentAfterLimit},
	} {
		if got, want := invented.AsJSON(t, pair[0]), invented.AsJSON(t, pair[1]); got != want {
			t.Errorf("price %v, yield %v, %s: compare %s, explain %s", price, yield, name, got, want)
		}
	}
	if p.Programs.Of(farm.ARCCO).StandardError != 0 || p.Programs.Of(farm.PLC).SD > 1e-9 {
		t.Errorf("price %v, yield %v: no spread, but standard error %v and sd %v", price, yield, p.Programs.Of(farm.ARCCO).StandardError, p.Programs.Of(farm.PLC).SD)
	}
}

// threeFarms share counties, commodities and producers.
func threeFarms() answer.Question {
	c := cases.Corn()
	invented.Project(c.Market, crop.Soybeans, 2026, 10.40, -1)
	soy := farm.CountyYield{Commodity: crop.Soybeans, Practice: farm.AllPractices, Adjusted: map[crop.CropYear][5]float64{2026: {54.1, 57.2, 55, 53.6, 58.3}}}
	corn := invented.CornYield(farm.YieldOutlook{KnownFrom: "state_report"})
	c.Counties = invented.BookOf(farm.County{Code: "99001", Yields: []farm.CountyYield{corn, soy}}, farm.County{Code: "99003", Yields: []farm.CountyYield{corn}})
	away := invented.Base(crop.Corn, 60, 171)
	away.County = "99003"
	c.Operation.Farms = []farm.Farm{
		invented.OneFarm("0417", invented.Base(crop.Corn, 120, 150), invented.Base(crop.Soybeans, 80, 45)),
		invented.OneFarm("0588", invented.Base(crop.Corn, 95, 171), away),
		invented.OneFarm("1203", invented.Base(crop.Soybeans, 50, 40)),
	}
	return c
}

// byFarm returns each farm's part as JSON.
func byFarm(t *testing.T, c answer.Question) map[string]string {
	t.Helper()
	parts := map[string]string{}
	for _, f := range ask(t, c).CropYears[0].Farms {
		parts[f.Farm] = invented.AsJSON(t, f)
	}
	return parts
}

// No farm's figures depend on another farm: shuffle, add and drop some.
func TestFarmsDoNotDependOnEachOther(t *testing.T) {
	c := threeFarms()
	whole := byFarm(t, c)
	farms := c.Operation.Farms
	wheat := invented.OneFarm("2001", invented.Base(crop.Wheat, 10, 30))
	for name, changed := range map[string][]farm.Farm{
		"shuffled":  {farms[2], farms[0], farms[1]},
		"one added": {wheat, farms[0], farms[1], farms[2]},
		"two left":  {farms[1], farms[2]},
		"one left":  {farms[1]},
	} {
		c.Operation.Farms = changed
		for key, got := range byFarm(t, c) {
			if want, had := whole[key]; had && got != want {
				t.Errorf("%s: farm %s changed:\n%s\n%s", name, key, got, want)
			}
		}
	}
}

// The same seed gives the same bytes on one core and on two; another seed does not.
func TestSameSeedSameBytes(t *testing.T) {
	c := threeFarms()
	before := runtime.GOMAXPROCS(1)
	one := invented.AsJSON(t, ask(t, c))
	runtime.GOMAXPROCS(2)
	two := invented.AsJSON(t, ask(t, c))
	runtime.GOMAXPROCS(before)
	if one != two {
		t.Error("one core and two cores print different bytes")
	}
	c.Seed = 2
	if invented.AsJSON(t, ask(t, c)) == one {
		t.Error("another seed prints the same bytes")
	}
}

// With known_from changed, the SD, the correlation with the price and the
// odds change as docs/method.md says.
func TestStageOfKnowledge(t *testing.T) {
	history := map[crop.CropYear]float64{}
	for i := range 15 { // a county whose yields swing by 13 percent around 180
		history[2011+i] = 180 * (1 + 0.13*[]float64{-1.4, 0.9, 0.2, -0.6, 1.1, -0.3, 0.5, -1, 1.3, 0, -0.7, 0.8, -0.2, 0.6, -0.9}[i])
	}
	var cvs, correlations, chances []float64
	for _, stage := range []string{"before_harvest", "state_report", "county_estimate"} {
		c := cases.Corn()
		yield := invented.CornYield(farm.YieldOutlook{Yield: invented.Number(188), KnownFrom: stage})
		yield.History = history
		c.Counties = invented.Book(yield)
		p := only(t, c)
		cvs = append(cvs, float64(p.Bases[0].CountyYield.SD)/188)
		correlations = append(correlations, float64(p.Bases[0].CountyYield.Correlation))
		chances = append(chances, float64(p.Programs.Of(farm.ARCCO).ChanceOfPayment))
	}
	cv := cvs[0]
	if cv < 0.06 || cv > 0.45 {
		t.Fatalf("CV %v outside its floor and cap", cv)
	}
	for i, want := range []float64{cv, max(0.06, 0.64*cv), max(0.04, 0.40*cv)} {
		if math.Abs(cvs[i]-want) > 1e-6 {
			t.Errorf("stage %d: CV %.4f, want %.4f", i, cvs[i], want)
		}
	}
	if want := []float64{-0.45 / 2, 0, 0}; correlations[0] != want[0] || correlations[1] != 0 || correlations[2] != 0 { // market of November: halved before harvest
		t.Errorf("correlations %v, want %v", correlations, want)
	}
	if !(chances[0] > chances[1] && chances[1] > chances[2]) {
		t.Errorf("chance of an ARC-CO payment %v: must fall as more is known", chances)
	}
}
