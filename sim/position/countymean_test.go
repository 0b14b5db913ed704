package position

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
)

// flat is the five adjusted yields and benchmark of 2026: mean 100, Olympic
// average (90 + 95 + 100) / 3 = 95.
func flat(b farm.CountyBook) (farm.CountyBook, Benchmark) {
	five := [5]float64{80, 90, 95, 100, 135}
	b[0].Counties["99001"].Yields[0].Adjusted = map[crop.CropYear][5]float64{2026: five}
	return b, Benchmark{Figure: farm.Figure{Value: 95, Status: crop.Agency, Source: "FSA"}}
}

// A series gives the mean up to four crop years after its end; an older one says
// how far yields spread, and no more. Issue 13, item 4: corn whose series ends in
// 2022 and 2021, asked about 2026.
func TestStaleSeriesGivesSpreadOnly(t *testing.T) {
	for _, one := range []struct {
		last crop.CropYear
		mean float64
		from string
	}{
		{2022, 110.5, "trend of 23 county yields, 2000 to 2022. That gives 126.0, moved half-way to the benchmark of 95.0"}, // 100 in 2000 and one a year
		{2021, 100, "average of the five adjusted yields"},                                                                  // (80 + 90 + 95 + 100 + 135) / 5
	} {
		series := invented.Rising(2000, one.last, 100)
		series[2010] = 55 // half its trend: the standard deviation is the series'
		b, benchmark := flat(agencies(nil, series, nil))
		o, ok := Sources{Counties: b}.CountyYieldOutlook(cornUnit, benchmark)
		if !ok || math.Abs(o.Mean-one.mean) > 1e-9 || !strings.HasPrefix(o.MeanFrom, one.from) || o.Rejected != nil {
			t.Errorf("ends in %d: mean %v, %s; want %v, %s", one.last, o.Mean, o.MeanFrom, one.mean, one.from)
		}
		if !strings.Contains(o.SDFrom, "the county's own") {
			t.Errorf("ends in %d: spread %s; want the county's own", one.last, o.SDFrom)
		}
		if said := strings.Contains(o.MeanFrom, "end in 2021, too long ago"); said != (one.last == 2021) {
			t.Errorf("ends in %d: %s", one.last, o.MeanFrom)
		}
	}
}

// The longest series is too old, a shorter one is not: the first gives the standard deviation,
// the second the mean.
func TestMeanAndSpreadFromTwoSeries(t *testing.T) {
	b := agencies(invented.Rising(2013, 2024, 100), nil, invented.Rising(1980, 2015, 60))
	spread, level := LongestYieldSeries(b, cornUnit)
	if len(spread.Years) != 36 || len(level.Years) != 12 || level.Years[11] != 2024 {
		t.Errorf("spread from %s, level from %s; want 36 and 12 years", spread.Description(), level.Description())
	}
}

// A ratio of planted to harvested acres that nobody can measure is not 1: NASS's
// series gives no mean, and NASS's estimate of the year is not taken. With three
// common years both are.
func TestUnmeasuredRatioIsNotOne(t *testing.T) {
	long := invented.Rising(1990, 2026, 100)
	for name, actual := range map[string]map[crop.CropYear]float64{"two common years": invented.Rising(2022, 2023, 120), "three": invented.Rising(2021, 2023, 118)} {
		measured := name == "three"
		b, benchmark := flat(agencies(actual, nil, long))
		delete(b[0].Counties["99001"].Yields[0].Adjusted, 2026)
		if stated, _ := agencyEstimate(b, cornUnit, nil); (stated.Yield != nil) != measured {
			t.Errorf("%s: NASS's estimate of 2026 taken: %v", name, stated.Yield != nil)
		}
		before := invented.Rising(1990, 2025, 100)
		b[2].Counties["99001"].Yields[0].Harvested = before
		o, _ := Sources{Counties: b}.CountyYieldOutlook(cornUnit, benchmark)
		if strings.HasPrefix(o.MeanFrom, "trend of 36") != measured || !measured && !strings.Contains(o.MeanFrom, "no ratio to planted acres") {
			t.Errorf("%s: %v, %s", name, o.Mean, o.MeanFrom)
		}
		if !strings.Contains(o.SDFrom, "own 36 yields") {
			t.Errorf("%s: spread %s", name, o.SDFrom)
		}
	}
}

// Where a county has too few common years its benchmark yield gives the ratio. The
// yields rise by one a year, so those of 2020-2024 carried to 2026 are all one
// figure, that of 2026: 100 + 36 = 136. The benchmark 68 is half of it.
func TestRatioByTheBenchmark(t *testing.T) {
	b := agencies(nil, nil, invented.Rising(1990, 2025, 100))
	b[0].Counties["99001"].Yields[0].BenchmarkYield = map[crop.CropYear]float64{2026: 68}
	ratio, how := plantedPerHarvested(b, cornUnit, b[2].Counties["99001"].Yields[0].Harvested, nil)
	if math.Abs(ratio-0.5) > 1e-9 || !strings.Contains(how, "benchmark yield of 2026") {
		t.Errorf("%v, %s; want 0.5", ratio, how)
	}
	// Of 2014 the five are 2009-2013 as they are: 119 to 123, in the middle 121.
	u := cornUnit
	u.CropYear = 2014
	b[0].Counties["99001"].Yields[0].BenchmarkYield = map[crop.CropYear]float64{2014: 121 * 0.9}
	if ratio, _ := plantedPerHarvested(b, u, b[2].Counties["99001"].Yields[0].Harvested, nil); math.Abs(ratio-0.9) > 1e-9 {
		t.Errorf("%v; want 0.9", ratio)
	}
}

// A mean outside 60 to 150 percent of the benchmark is not taken: the mean of the
// five is, else the benchmark, and a flag names both. At the bounds it is, half-way to 95.
func TestMeanOutOfLine(t *testing.T) {
	for _, one := range []struct {
		name     string
		trend    float64 // of 2026
		withFive bool
		mean     float64
		refused  bool
	}{
		{"in line", 100, true, 97.5, false}, {"just above 60 percent", 57.01, true, 76.005, false}, {"just below 150 percent", 142.49, true, 118.745, false},
		{"below", 56.99, true, 100, true}, {"above", 142.51, true, 100, true}, {"without the five", 142.51, false, 95, true},
	} {
		b, benchmark := flat(agencies(nil, invented.Rising(2005, 2025, one.trend-21), nil))
		if !one.withFive {
			b[0].Counties["99001"].Yields[0].Adjusted = nil
		}
		o, ok := Sources{Counties: b}.CountyYieldOutlook(cornUnit, benchmark)
		if !ok || math.Abs(o.Mean-one.mean) > 1e-9 || (o.Rejected != nil) != one.refused {
			t.Errorf("%s: %v, %s, %+v; want %v", one.name, o.Mean, o.MeanFrom, o.Rejected, one.mean)
		}
	}
	// The five themselves can be out of line with their Olympic average.
	b, benchmark := flat(agencies(nil, nil, nil))
	b[0].Counties["99001"].Yields[0].Adjusted = map[crop.CropYear][5]float64{2026: {10, 10, 10, 10, 100}}
	benchmark.Value = 10
	if o, _ := (Sources{Counties: b}).CountyYieldOutlook(cornUnit, benchmark); o.Mean != 10 || o.Rejected == nil || o.Rejected.Mean != 28 {
		t.Errorf("%v, %+v; want 10, not 28", o.Mean, o.Rejected)
	}
}

// The yields that a later benchmark draws follow the same rules: a series that
// ended too long ago gives way to the mean of the five.
func TestAheadFollowsTheRulesOfTheMean(t *testing.T) {
	five := [5]float64{170, 172, 178, 176, 176} // mean 174.4
	for _, one := range []struct {
		history map[crop.CropYear]float64
		mean    float64
	}{
		{invented.Rising(2000, 2020, 100), 174.4},              // ended five years before 2025
		{invented.Rising(2000, 2024, 150), (175 + 174.67) / 2}, // 150 in 2000: 175 in 2025, half-way to the Olympic average of 174.67
		{invented.Rising(2000, 2024, 50), 174.4},               // 75 in 2025 is out of line with 174.67
	} {
		b := agencies(map[crop.CropYear]float64{2024: 180}, nil, nil)
		b[0].Counties["99001"].Yields[0].History = one.history
		b[0].Counties["99001"].Yields[0].Adjusted = map[crop.CropYear][5]float64{2025: five}
		u := cornUnit
		u.CropYear = 2027
		ahead, ok := (Sources{Counties: b}).BenchmarkYield(u, 2)
		if !ok || ahead.Projected.Yields[4].Outlook == nil || math.Abs(ahead.Projected.Yields[4].Outlook.Mean-one.mean) > 1e-9 {
			t.Errorf("%+v, %v; want a yield of 2025 drawn about %v", ahead, ok, one.mean)
		}
	}
}
