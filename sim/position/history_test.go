package position

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// agencies is a book of three sources about county 99001, in the order of the
// county book.
func agencies(actual, insured, harvested map[crop.CropYear]float64) farm.CountyBook {
	source := func(name string, y farm.CountyYield) farm.CountySource {
		y.Commodity, y.Practice = crop.Corn, farm.AllPractices
		return farm.CountySource{Name: name, Status: crop.Agency, Agency: name == "FSA", Counties: map[string]farm.County{"99001": {Code: "99001", Yields: []farm.CountyYield{y}}}}
	}
	return farm.CountyBook{source("FSA", farm.CountyYield{Actual: actual}), source("RMA", farm.CountyYield{Insured: insured}), source("NASS", farm.CountyYield{Harvested: harvested})}
}

// Yields fills a series from one year on.
func yearsFrom(first int, yields ...float64) map[crop.CropYear]float64 {
	series := map[crop.CropYear]float64{}
	for i, y := range yields {
		series[first+i] = y
	}
	return series
}

var cornUnit = CountyUnit{"99001", crop.Corn, farm.AllPractices, 2026}

// NASS's long series comes at the level of the agency's: the county's own median
// ratio of three years, 0.95, and its length.
func TestNASSIsMovedToTheLevelOfPlantedAcres(t *testing.T) {
	long := map[crop.CropYear]float64{}
	for y := 1980; y <= 2023; y++ {
		long[y] = 100 + float64(y-1980)
	}
	actual := map[crop.CropYear]float64{2020: 0.95 * long[2020], 2021: 0.95 * long[2021], 2022: 0.90 * long[2022], 2023: 0.96 * long[2023]}
	s, _ := LongestYieldSeries(agencies(actual, nil, long), cornUnit)
	if len(s.Years) != 44 || math.Abs(s.Yields[0]-95) > 1e-9 || !strings.Contains(s.remark, "x 0.950") || !strings.Contains(s.remark, "4 years of this county") {
		t.Errorf("%d years from %v, %s; want 44 from 95, the median of 0.90 0.95 0.95 0.96 times 100", len(s.Years), s.Yields[0], s.remark)
	}
	// Without common years the ratio is unknown and said to be.
	if s, _ := LongestYieldSeries(agencies(nil, nil, long), cornUnit); s.Yields[0] != 100 || !strings.Contains(s.remark, "no ratio") {
		t.Errorf("%v, %s", s.Yields[0], s.remark)
	}
}

// Before the change of source RMA's yields come first, from it on the agency's
// own; without RMA the years before are moved by the step.
func TestStepAtTheChangeOfSource(t *testing.T) {
	before, after := yearsFrom(2014, 150, 152, 151, 149, 153), yearsFrom(2019, 140, 142, 141, 139, 143, 141)
	actual := map[crop.CropYear]float64{}
	for _, part := range []map[crop.CropYear]float64{before, after} {
		for y, yield := range part {
			actual[y] = yield
		}
	}
	s, _ := LongestYieldSeries(agencies(actual, nil, nil), cornUnit)
	if !strings.Contains(s.remark, "moved by -") || s.Yields[0] >= 150 || s.Yields[len(s.Yields)-1] != 141 {
		t.Errorf("%v, %s", s.Yields, s.remark)
	}
	s, _ = LongestYieldSeries(agencies(actual, yearsFrom(2014, 141, 140, 142, 139, 141), nil), cornUnit)
	if s.remark != "" || s.Yields[0] != 141 {
		t.Errorf("with RMA before 2019: %v, %s", s.Yields, s.remark)
	}
}

// RMA's yield of the crop year is nearly known; NASS's is an estimate.
func TestStageByAgency(t *testing.T) {
	long := yearsFrom(2012, 150, 152, 149, 155, 160, 158, 161, 159, 163, 165, 168, 170, 171, 172, 180)
	long2025 := map[crop.CropYear]float64{}
	for y, yield := range long {
		long2025[y] = yield
	}
	delete(long2025, 2026)
	for name, one := range map[string]struct {
		book  farm.CountyBook
		stage odds.Stage
	}{
		"RMA has it":  {agencies(nil, long, nil), odds.InsuranceYield},
		"NASS has it": {agencies(nil, long2025, long), odds.CountyEstimate},
		"neither has": {agencies(nil, long2025, nil), odds.BeforeHarvest},
	} {
		o, ok := Sources{Counties: one.book}.CountyYieldOutlook(cornUnit, Benchmark{})
		if !ok || o.Stage != one.stage {
			t.Errorf("%s: stage %s, want %s", name, o.Stage, one.stage)
		}
	}
}

// A benchmark without a table is estimated from the one before: corn of 2026 from
// the five of 2025 and the yield of 2024. The five are actual + (2025 - year) x
// 2.00 but for one at its plug; so the next are each 2.00 more, and 190 + 2 x
// 2.00 comes in: 174, 180 (plug), 178, 178, 194, middle three (178+178+180)/3.
func TestBenchmarkAhead(t *testing.T) {
	actual := yearsFrom(2019, 158, 162, 150, 170, 172, 190)
	five := [5]float64{158 + 12, 162 + 10, 178, 170 + 6, 172 + 4} // 170, 172, 178, 176, 176
	c := agencies(actual, nil, nil)
	c[0].Counties["99001"].Yields[0].Adjusted = map[crop.CropYear][5]float64{2025: five}
	b, ok := (Sources{Counties: c}).BenchmarkYield(cornUnit, 2)
	// next: 174, 180, 178, 178, 194: middle three of 174 178 178 180 194 = 178.67
	if !ok || b.Status != crop.Projected || b.Value != 178.67 || b.Agency {
		t.Errorf("%+v, %v; want 178.67, projected", b, ok)
	}
	later := cornUnit
	later.CropYear = 2027
	// Nobody has the yield of 2025 that 2027 needs: it is drawn about the mean of the
	// five of 2025, 174.4. 182, 180, 180, 196 and 174.4 + 2 x 2.00: (180+180+182)/3.
	b, ok = (Sources{Counties: c}).BenchmarkYield(later, 2)
	if !ok || b.Value != 180.67 || !b.Projected.Varies() || b.Projected.Yields[4].Outlook.Mean != 174.4 {
		t.Errorf("%+v, %v; want 180.67, drawn about 174.4", b, ok)
	}
	c[0].Counties["99001"].Yields[0].Actual[2025] = 180
	if _, ok := (Sources{Counties: c}).BenchmarkYield(later, 2); !ok {
		t.Error("2027 is not estimated in two steps")
	}
}
