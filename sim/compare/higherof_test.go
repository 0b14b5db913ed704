package compare_test

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
)

// In 2025 the higher of both is paid in every scenario: its mean is the mean of
// the maxima, and so PLC's mean plus what ARC-CO pays more where it does.
func TestHigherOf2025(t *testing.T) {
	f := ask(t, cases.HigherOf2025()).CropYears[0].Farms[0]
	p := f.Commodities[0].Programs
	if p.Of(farm.HigherOf) == nil || p.Of(farm.HigherOf).Mean < p.Of(farm.PLC).Mean || p.Of(farm.HigherOf).Mean < p.Of(farm.ARCCO).Mean {
		t.Fatalf("HIGHER-OF %+v, PLC %v, ARC-CO %v", p.Of(farm.HigherOf), p.Of(farm.PLC).Mean, p.Of(farm.ARCCO).Mean)
	}
	if p.Of(farm.HigherOf).Mean > p.Of(farm.PLC).Mean+p.Of(farm.ARCCO).Mean {
		t.Errorf("HIGHER-OF averages %v, more than both together", p.Of(farm.HigherOf).Mean)
	}
	if len(f.Elections) != 1 || f.Elections[0].Choice[crop.Corn] != farm.HigherOf {
		t.Errorf("elections %s, want one of HIGHER-OF", invented.AsJSON(t, f.Elections))
	}
	if got := codes(cases.HigherOf2025(), 2025); !slices.Contains(got, "higher_of_2025") {
		t.Errorf("flags %v lack higher_of_2025", got)
	}
	if other := only(t, cases.Corn()).Programs.Of(farm.HigherOf); other != nil {
		t.Errorf("crop year 2026 has HIGHER-OF %+v", other)
	}
	if got := codes(cases.Corn(), 2026); slices.Contains(got, "higher_of_2025") {
		t.Error("crop year 2026 raises higher_of_2025")
	}
}
