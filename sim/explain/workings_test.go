package explain

import (
	"math"
	"testing"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented/cases"
)

// The workings of cases.Corn: 187.30 bu times 5.03 is 942.12 an acre, 90
// percent of it 847.91, at most 12 percent 113.05.
func TestWorkingsAreWhatTheLawStartsFrom(t *testing.T) {
	w, err := WorkingsOf(cases.Corn(), 2026)
	if err != nil {
		t.Fatal(err)
	}
	corn := w.Commodities[0]
	if corn.Commodity != crop.Corn || corn.Target.Value != 4.42 || corn.Benchmark.Value != 5.03 || corn.Price.Value != 4.80 || corn.Unpaid != "" {
		t.Errorf("%+v", corn)
	}
	for i, year := range []crop.CropYear{2020, 2021, 2022, 2023, 2024} {
		if corn.History[i].CropYear != year || corn.History[i].Value == 0 {
			t.Errorf("past price %d: %+v, want one of %d", i, corn.History[i], year)
		}
	}
	base := corn.Bases[0]
	coverage := corn.Terms.ARCCO(base.Practices[0].BenchmarkYield.Value, corn.Benchmark.Value)
	if want := (program.ARCCO{BenchmarkRevenue: 942.12, Guarantee: 847.91, Maximum: 113.05}); coverage != want {
		t.Errorf("%+v, want %+v", coverage, want)
	}
	if base.CutAcres != 0 || math.Abs(base.PaymentAcres-0.85*base.BaseAcres) > 1e-9 || base.Practices[0].Practice != farm.AllPractices {
		t.Errorf("%+v", base)
	}
}
