package explain

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// pastCorn knows corn's prices of 2009-2024 (FSA ARC/PLC Table 1; 2024 NASS)
// and, for 2019 and 2022, the county's benchmark and actual yield.
func pastCorn() answer.Question {
	m := invented.Market("2026-11-10")
	for i, p := range []float64{3.55, 5.18, 6.22, 6.89, 4.46, 3.70, 3.61, 3.36, 3.36, 3.61, 3.56} { // 2009-2019
		m.MYA[crop.Corn][2009+i] = farm.Figure{Value: p, Status: crop.Agency, Source: "FSA Table 1"}
	}
	delete(m.MYA[crop.Corn], 2025)
	u := farm.CountyYield{Commodity: crop.Corn, Practice: farm.AllPractices,
		BenchmarkYield: map[crop.CropYear]float64{2019: 180, 2022: 190}, Actual: map[crop.CropYear]float64{2019: 150, 2021: 170, 2022: 180}}
	return cases.Question(m, invented.Book(u), invented.OneFarm("0417", invented.Base(crop.Corn, 120, 150)))
}

func replayed(t *testing.T, c answer.Question) CommodityReplay {
	t.Helper()
	r, err := Replay(c)
	if err != nil {
		t.Fatal(err)
	}
	return r.Farms[0].Commodities[0]
}

func yearOf(t *testing.T, r CommodityReplay, y crop.CropYear, kind RulesKind) YearReplay {
	t.Helper()
	for _, one := range r.Years {
		if one.CropYear == y && one.Rules == kind {
			return one
		}
	}
	t.Fatalf("no %d under rules %s", y, kind)
	return YearReplay{}
}

// By hand, corn 2019. Of the time: rate 3.70 - 3.56 = 0.14 (FSA Table 3), 0.14 x
// 150 x 0.85 = 17.85. ARC-CO: benchmark price 3.70; 180 x 3.70 = 666.00, 86
// percent 572.76, maximum 66.60; 150 x 3.56 = 534.00; 38.76 x 0.85 = 32.95.
// Under the rules of 2026: reference price 4.10; prices 2013-2017 4.46 3.70 3.61
// 3.36 3.36, middle three 3.5567, 88 percent 3.13: effective 4.10; rate 0.54:
// 68.85. ARC-CO: benchmark price (4.10 four times, 4.46): 4.10; 738.00, 90
// percent 664.20, maximum 88.56; 664.20 - 534.00 = 130.20, capped: 75.28.
func TestReplayOf2019(t *testing.T) {
	r := replayed(t, pastCorn())
	for kind, want := range map[RulesKind][2]float64{OfTheTime: {17.85, 32.946}, OfCropYear: {68.85, 75.276}} {
		y := yearOf(t, r, 2019, kind)
		if y.PLC == nil || y.ARCCO == nil || math.Abs(float64(*y.PLC)-want[0]) > 1e-9 || math.Abs(float64(*y.ARCCO)-want[1]) > 1e-9 {
			t.Errorf("%s: %s, want PLC %v and ARC-CO %v", kind, invented.AsJSON(t, y), want[0], want[1])
		}
		if y.YieldSource != "alder.yaml" {
			t.Errorf("the county yield is from %q", y.YieldSource)
		}
	}
}

// A year without benchmark or actual yield has PLC alone, and says why.
func TestReplayNamesWhatIsMissing(t *testing.T) {
	r := replayed(t, pastCorn())
	if y := yearOf(t, r, 2021, OfTheTime); y.PLC == nil || y.ARCCO != nil || !strings.Contains(y.Missing, "benchmark yield") {
		t.Errorf("2021, without a benchmark yield: %s", invented.AsJSON(t, y))
	}
	c := pastCorn()
	delete(c.Counties[0].Counties["99001"].Yields[0].Actual, 2022)
	if y := yearOf(t, replayed(t, c), 2022, OfTheTime); y.ARCCO != nil || !strings.Contains(y.Missing, "actual county yield") {
		t.Errorf("2022, without an actual yield: %s", invented.AsJSON(t, y))
	}
	for _, y := range r.Years {
		if y.CropYear >= 2025 {
			t.Errorf("%d has no final price and is replayed", y.CropYear)
		}
	}
}

// Each kind of rules has its own total over the years in which both programs
// have figures; no figure adds the two kinds.
func TestTotalsAreNeverOfBothKinds(t *testing.T) {
	r := replayed(t, pastCorn())
	if len(r.Totals) != 2 {
		t.Fatalf("totals %+v", r.Totals)
	}
	for _, total := range r.Totals {
		plc, arc := 0.0, 0.0
		for _, y := range []crop.CropYear{2019, 2022} {
			one := yearOf(t, r, y, total.Rules)
			plc, arc = plc+float64(*one.PLC), arc+float64(*one.ARCCO)
		}
		if float64(total.PLC) != plc || float64(total.ARCCO) != arc || len(total.CropYears) != 2 {
			t.Errorf("%s: %+v, want PLC %v and ARC-CO %v over 2 years", total.Rules, total, plc, arc)
		}
	}
}

// Replay of the time pays what explain pays at the same price and yield.
func TestReplayEqualsExplain(t *testing.T) {
	c := pastCorn()
	for _, y := range []crop.CropYear{2019, 2022} {
		one := yearOf(t, replayed(t, c), y, OfTheTime)
		e, err := Explain(c, c.Operation.Farms[0], crop.Corn, y, Given{MYA: one.MYA.Value, CountyYield: CountyYields{{}: float64(*one.CountyYield)}})
		if err != nil {
			t.Fatal(err)
		}
		if *e.Programs.Of(farm.PLC).PaymentPerBaseAcre != *one.PLC || *e.Programs.Of(farm.ARCCO).PaymentPerBaseAcre != *one.ARCCO {
			t.Errorf("%d: explain %v and %v, replay %v and %v", y, *e.Programs.Of(farm.PLC).PaymentPerBaseAcre, *e.Programs.Of(farm.ARCCO).PaymentPerBaseAcre, *one.PLC, *one.ARCCO)
		}
	}
}

// For 2025 the law of the time pays the higher of both; nothing is paid on base
// idle 2009 to 2017 from 2019.
func TestReplayOf2025AndIdleBase(t *testing.T) {
	c := pastCorn()
	c.Market.MYA[crop.Corn][2025] = farm.Figure{Value: 4.15, Status: crop.Agency, Source: "test"}
	u := &c.Counties[0].Counties["99001"].Yields[0]
	u.BenchmarkYield[2025], u.Actual[2025] = 190, 160
	y := yearOf(t, replayed(t, c), 2025, OfTheTime)
	if y.HigherOf == nil || *y.HigherOf != max(*y.PLC, *y.ARCCO) || yearOf(t, replayed(t, c), 2025, OfCropYear).HigherOf != nil {
		t.Errorf("2025: %s", invented.AsJSON(t, y))
	}
	c.Operation.Farms[0].Idle20092017 = true
	if y := yearOf(t, replayed(t, c), 2019, OfTheTime); *y.PLC != 0 || *y.ARCCO != 0 {
		t.Errorf("idle base is paid %v and %v for 2019", *y.PLC, *y.ARCCO)
	}
	if y := yearOf(t, replayed(t, c), 2016, OfTheTime); *y.PLC == 0 {
		t.Error("idle base is not paid for 2016, before the rule")
	}
}
