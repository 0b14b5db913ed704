package answer

import (
	"slices"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
)

// case2025 asks about crop year 2025, when its price was still a projection.
func case2025() Case {
	c := designCase()
	delete(c.Market.MYA[crop.Corn], 2025)
	project(c.Market, crop.Corn, 2025, 4.10, 0.05)
	yield := cornYield(farm.YieldOutlook{})
	yield.Adjusted = map[crop.CropYear][5]float64{2025: yield.Adjusted[2026]}
	yield.Outlook = map[crop.CropYear]farm.YieldOutlook{2025: {Yield: number(180), KnownFrom: "county_estimate"}}
	c.Counties = book(yield)
	c.Market.MYA[crop.Corn][2019] = farm.Figure{Value: 3.56, Status: crop.Agency}
	c.CropYears = []crop.CropYear{2025}
	return c
}

// In 2025 the higher of both is paid in every outcome: its mean is the mean of
// the maxima, and so PLC's mean plus what ARC-CO pays more where it does.
func TestHigherOf2025(t *testing.T) {
	f := compare(t, case2025()).CropYears[0].Farms[0]
	p := f.Commodities[0].Programs
	if p.Of(farm.HigherOf) == nil || p.Of(farm.HigherOf).Mean < p.Of(farm.PLC).Mean || p.Of(farm.HigherOf).Mean < p.Of(farm.ARCCO).Mean {
		t.Fatalf("HIGHER-OF %+v, PLC %v, ARC-CO %v", p.Of(farm.HigherOf), p.Of(farm.PLC).Mean, p.Of(farm.ARCCO).Mean)
	}
	if p.Of(farm.HigherOf).Mean > p.Of(farm.PLC).Mean+p.Of(farm.ARCCO).Mean {
		t.Errorf("HIGHER-OF averages %v, more than both together", p.Of(farm.HigherOf).Mean)
	}
	if len(f.Elections) != 1 || f.Elections[0].Choice[crop.Corn] != farm.HigherOf {
		t.Errorf("elections %s, want one of HIGHER-OF", asJSON(t, f.Elections))
	}
	if got := codes(case2025(), 2025); !slices.Contains(got, "higher_of_2025") {
		t.Errorf("flags %v lack higher_of_2025", got)
	}
	if other := only(t, designCase()).Programs.Of(farm.HigherOf); other != nil {
		t.Errorf("crop year 2026 has HIGHER-OF %+v", other)
	}
	if got := codes(designCase(), 2026); slices.Contains(got, "higher_of_2025") {
		t.Error("crop year 2026 raises higher_of_2025")
	}
}
