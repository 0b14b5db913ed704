package position

import (
	"math"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/odds"
)

// Corn of 2026 in a county whose yields rise by one a year from 100 in 2000 to 124 in 2024:
// the trend of 2026 is 126; the five adjusted yields 80, 90, 95, 100, 135 average 100; the
// benchmark is 95. Without the five the newest ten yields, 115 to 124, average 119.5. A trend
// of 126 is out of line with a benchmark of 80 (157 percent), and so is 119.5 (149.4 is in
// line): it stands in for the trend. With neither series nor five only the benchmark is left.
func TestEstimatorsOfTheMean(t *testing.T) {
	five, rising := &[5]float64{80, 90, 95, 100, 135}, invented.Rising(2000, 2024, 100)
	benchmark := func(value float64, five *[5]float64) Benchmark {
		return Benchmark{Figure: farm.Figure{Value: value, Status: crop.Agency, Source: "FSA"}, Five: five}
	}
	for _, one := range []struct {
		name      string
		book      farm.CountyBook
		benchmark Benchmark
		want      [3]float64 // 0: none
	}{
		{"all four", agencies(nil, rising, nil), benchmark(95, five), [3]float64{126, 100, 95}},
		{"no five adjusted yields", agencies(nil, rising, nil), benchmark(95, nil), [3]float64{126, 119.5, 95}},
		{"a trend out of line", agencies(nil, rising, nil), benchmark(80, five), [3]float64{119.5, 100, 80}},
		{"no series", agencies(nil, nil, nil), benchmark(95, five), [3]float64{0, 100, 95}},
		{"the benchmark alone", agencies(nil, nil, nil), benchmark(95, nil), [3]float64{0, 0, 95}},
	} {
		o, ok := (Sources{Counties: one.book}).CountyYieldOutlook(cornUnit, one.benchmark)
		if !ok {
			t.Fatalf("%s: no outlook", one.name)
		}
		for i, want := range one.want {
			by := Estimator(i + 1)
			mean, has := o.Estimated(by)
			if has != (want > 0) || math.Abs(mean.Value-want) > 1e-9 {
				t.Errorf("%s: estimator %d gives %v, %s; want %v", one.name, by, mean.Value, mean.Source, want)
			}
			if factor := o.FactorOf(by); has && math.Abs(factor*o.Mean-want) > 1e-9 || !has && factor != 1 {
				t.Errorf("%s: estimator %d is %v times the mean %v; want %v", one.name, by, factor, o.Mean, want)
			}
		}
	}
}

// A mean that is told, a yield that an agency has and one that is known have no other
// estimators: nothing of the mean is in doubt.
func TestNoEstimatorsOfAToldMean(t *testing.T) {
	b, benchmark := flat(agencies(nil, invented.Rising(2000, 2024, 100), nil))
	b[0].Counties["99001"].Yields[0].Outlook = map[crop.CropYear]farm.YieldOutlook{2026: {Yield: invented.Number(120)}}
	if o, _ := (Sources{Counties: b}).CountyYieldOutlook(cornUnit, benchmark); o.Mean != 120 || o.Estimates != nil || o.FactorOf(OwnTrend) != 1 {
		t.Errorf("told: mean %v, estimates %v", o.Mean, o.Estimates)
	}
	b, benchmark = flat(agencies(nil, invented.Rising(2000, 2026, 100), nil))
	if o, _ := (Sources{Counties: b}).CountyYieldOutlook(cornUnit, benchmark); o.Estimates != nil {
		t.Errorf("an agency has the yield of the year: estimates %v", o.Estimates)
	}
}

// A move of the mean moves what the estimators say with it, and leaves the outlook that
// it was copied from as it is.
func TestMoveMean(t *testing.T) {
	o := Yield{Yield: odds.Yield{Mean: 100, SD: 10}, Estimates: []farm.Figure{{Value: 90, Status: crop.Assumed}, {}, {Value: 95, Status: crop.Assumed}}}
	moved := o
	moved.MoveMean(1.2)
	if moved.Mean != 120 || math.Abs(moved.Estimates[0].Value-108) > 1e-9 || moved.FactorOf(OwnTrend) != o.FactorOf(OwnTrend) || o.Estimates[0].Value != 90 || moved.SD != 10 {
		t.Errorf("%+v from %+v", moved, o)
	}
}

// The usual error of a price is that of its date, from November on; before, that of
// November, which is 0.07263 for corn (sim/odds/parameters.csv), where May has 0.18135. A
// spread that is told counts where it is smaller. A price of which nothing is open has none.
func TestUsualErrorOfAPrice(t *testing.T) {
	const november, march = 0.07263, 0.03248
	for _, one := range []struct {
		name, asOf string
		volatility float64 // -1: by date
		want       float64
	}{
		{"November", "2026-11-10", -1, november}, {"May", "2026-05-12", -1, november}, {"March after", "2027-03-10", -1, march},
		{"told, smaller", "2026-05-12", 0.05, 0.05}, {"told, larger", "2026-05-12", 0.30, november}, {"told to be sure", "2026-11-10", 0, 0},
	} {
		m := invented.Market(one.asOf)
		invented.Project(m, crop.Corn, 2026, 4.20, one.volatility)
		if p, _ := (Sources{Market: m}).Price(crop.Corn, 2026, 2); math.Abs(p.UsualError-one.want) > 1e-5 {
			t.Errorf("%s: %v, want %v", one.name, p.UsualError, one.want)
		}
	}
	m := invented.Market("2026-11-10")
	if p, _ := (Sources{Market: m}).Price(crop.Corn, 2025, 2); !p.Final || p.UsualError != 0 {
		t.Errorf("a final price: %+v", p)
	}
	invented.Project(m, crop.Corn, 2026, 4.20, -1)
	for weight, want := range map[float64]float64{0.5: november, 1: 0} {
		m.Months = map[crop.Commodity]map[crop.CropYear][]farm.MonthPrice{crop.Corn: {2026: {{Price: 4.20, Weight: weight}}}}
		if p, _ := (Sources{Market: m}).Price(crop.Corn, 2026, 2); math.Abs(p.UsualError-want) > 1e-5 {
			t.Errorf("%v of the year known: %v, want %v", weight, p.UsualError, want)
		}
	}
}
