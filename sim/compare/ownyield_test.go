package compare

import (
	"math"
	"testing"

	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/odds"
)

// Before harvest the farm's yield follows the county's and varies 1.6 times as
// much; with a typed yield known from harvest on, it does not vary.
func TestOwnYieldFollowsTheCounty(t *testing.T) {
	c := cases.OwnFarm("before_harvest", 188, nil)
	r, err := NewYearRun(c, 2026)
	if err != nil {
		t.Fatal(err)
	}
	one, err := r.Year.Individual(c.Operation.Farms[0], 2026)
	if err != nil || one.Missing != "" {
		t.Fatal(err, one.Missing)
	}
	k := one.Crops[0]
	own, county := r.Year.OwnYields(one.Farm, k), r.Year.Yields(2, k.County)
	ownSD, countySD := odds.Summarize(own, r.Year.Size).SD, odds.Summarize(county, r.Year.Size).SD
	ratio := ownSD / odds.Mean(own) / (countySD / odds.Mean(county))
	const tolerance = 0.03 // raising to zero and sampling
	if math.Abs(ratio-1.6) > tolerance {
		t.Errorf("the farm varies %v times as much as its county, want 1.6", ratio)
	}
	// own history 160, county mean 188 against a benchmark of 187.30
	if want := 160 * 188 / 187.30; math.Abs(odds.Mean(own)-want) > 0.5 {
		t.Errorf("the farm averages %v, want %v", odds.Mean(own), want)
	}
	known, err := Answer(cases.OwnFarm("local_harvest", 188, invented.Number(150)))
	if err != nil {
		t.Fatal(err)
	}
	if v := known.CropYears[0].Farms[0].ARCIC.Crops[0].Yield; v.SD != 0 || v.Mean != 150 {
		t.Errorf("a yield typed after harvest is %v give or take %v, want 150 and 0", v.Mean, v.SD)
	}
}
