package explain

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
	"fencerow/sim/invented/cases"
	"fencerow/sim/position"
)

// newBaseFarm plants corn and soybeans in every year of 2019-2023: 100 and 60
// acres, 20 of the corn prevented in each; 250 acres in all.
func newBaseFarm() farm.Farm {
	f := invented.OneFarm("0417", invented.Base(crop.Corn, 80, 150))
	f.TotalAcres = invented.Number(250)
	for y := 2019; y <= 2023; y++ {
		f.Planted = append(f.Planted,
			farm.Planting{CropYear: y, Commodity: "corn", Acres: 80, Prevented: 20},
			farm.Planting{CropYear: y, Commodity: "soybeans", Acres: 60})
	}
	return f
}

func newBase(t *testing.T, f farm.Farm, factor float64) FarmNewBase {
	t.Helper()
	bases, err := NewBase(cases.Question(invented.Market("2026-11-10"), nil, f), factor)
	if err != nil {
		t.Fatal(err)
	}
	return bases.Farms[0]
}

// By hand: mean 100 + 60 = 160, base 80: 80 added, shared 100 to 60: 50.00 and
// 30.00; with a factor of 0.9 72.00: 45.00 and 27.00. Corn keeps its payment
// yield, soybeans have none.
func TestNewBaseOfAFarm(t *testing.T) {
	for factor, want := range map[float64][3]float64{1: {80, 50, 30}, 0.9: {72, 45, 27}} {
		b := newBase(t, newBaseFarm(), factor)
		if !*b.Eligible || float64(*b.Added) != want[0] || float64(*b.AddedBeforeFactor) != 80 || len(b.Commodities) != 2 {
			t.Fatalf("factor %v: %+v", factor, b)
		}
		corn, soybeans := b.Commodities[0], b.Commodities[1]
		if float64(corn.Added) != want[1] || float64(corn.BaseAcres) != 80+want[1] || float64(*corn.PaymentYield) != 150 {
			t.Errorf("factor %v: corn %+v", factor, corn)
		}
		if float64(soybeans.Added) != want[2] || float64(soybeans.BaseAcres) != want[2] || soybeans.PaymentYield != nil {
			t.Errorf("factor %v: soybeans %+v", factor, soybeans)
		}
	}
}

// A year without plantings counts as zero and is pointed out; unassigned base is
// not compared.
func TestNewBaseCountsEmptyYears(t *testing.T) {
	f := newBaseFarm()
	f.Planted = f.Planted[2:] // 2019
	f.Unassigned = 12
	b := newBase(t, f, 1)
	if float64(*b.Added) != 160*4/5-80 {
		t.Errorf("added %v, want 128 less 80", *b.Added)
	}
	said := strings.Join(b.Notes, " ")
	if !strings.Contains(said, "2019") || !strings.Contains(said, "12.00 acres of unassigned") {
		t.Errorf("notes %q", said)
	}
}

// Vegetables count as noncovered, up to 15 percent of 250 acres: 37.5.
func TestNewBaseFromNoncoveredCrops(t *testing.T) {
	f := newBaseFarm()
	for y := 2019; y <= 2023; y++ {
		f.Planted = append(f.Planted, farm.Planting{CropYear: y, Commodity: position.FruitVegetables, Acres: 30}, farm.Planting{CropYear: y, Commodity: otherNoncovered, Acres: 20})
	}
	if b := newBase(t, f, 1); math.Abs(float64(*b.Added)-(160+37.5-80)) > 1e-9 {
		t.Errorf("added %v, want 117.50", *b.Added)
	}
}

// What is missing is named, not taken for zero.
func TestNewBaseNeedsAcresAndPlantings(t *testing.T) {
	f := newBaseFarm()
	f.TotalAcres, f.Planted = nil, nil
	b := newBase(t, f, 1)
	if b.Eligible != nil || b.Added != nil || !strings.Contains(b.Reason, "total_acres") || !strings.Contains(b.Reason, "planted") {
		t.Errorf("%+v", b)
	}
}

// Corn and soybeans are planted alike, 0.6 acres, and 0.19 acres are added: the
// odd hundredth goes to corn, first of equals, in whatever order and pieces the
// soybeans are entered (0.1 + 0.2 + 0.3 is more than 0.6 in binary).
func TestNewBaseDoesNotDependOnTheOrderOfPlantings(t *testing.T) {
	for _, pieces := range [][]float64{{0.1, 0.2, 0.3}, {0.3, 0.2, 0.1}, {0.6}} {
		f := invented.OneFarm("0417", invented.Base(crop.Wheat, 0.05, 40))
		f.TotalAcres = invented.Number(250)
		f.Planted = []farm.Planting{{CropYear: 2019, Commodity: "corn", Acres: 0.6}}
		for _, acres := range pieces {
			f.Planted = append(f.Planted, farm.Planting{CropYear: 2019, Commodity: "soybeans", Acres: acres})
		}
		added := map[crop.Commodity]float64{}
		for _, c := range newBase(t, f, 1).Commodities {
			added[c.Commodity] = float64(c.Added)
		}
		if added[crop.Corn] != 0.10 || added[crop.Soybeans] != 0.09 {
			t.Errorf("soybeans in pieces %v: %v, want corn 0.10 and soybeans 0.09", pieces, added)
		}
	}
}

// Double cropping: 160 acres planted on average on a farm of 100 with base of 80
// gives 20; with base of 100 the plantings are above the base and yet nothing fits.
func TestNewBaseWithinTotalAcres(t *testing.T) {
	f := newBaseFarm()
	f.TotalAcres = invented.Number(100)
	b := newBase(t, f, 1)
	if float64(*b.Added) != 20 || step(t, b, "five_year_sum") != 160 || step(t, b, "within_total_acres") != 100 {
		t.Errorf("base 80: %+v", b)
	}
	f.Bases[0].BaseAcres = 100
	b = newBase(t, f, 1)
	if float64(*b.Added) != 0 || !*b.Eligible || !strings.Contains(b.Reason, "total acres") {
		t.Errorf("base 100: eligible %v, added %v, %q", *b.Eligible, *b.Added, b.Reason)
	}
}

// Plantings are as typed: nothing computed from them is shown as firmer.
func TestNewBaseStepsAreNoFirmerThanPlantings(t *testing.T) {
	b := newBase(t, newBaseFarm(), 1)
	for _, name := range []string{"planted_2021_corn", "mean_planted_corn", "covered_mean", "five_year_sum", "added_before_factor", "added"} {
		for _, s := range b.Steps {
			if s.Name == name && !s.Status.Marked() {
				t.Errorf("%s is %s", name, s.Status)
			}
		}
	}
	if step(t, b, "planted_2021_corn") != 100 || step(t, b, "mean_planted_corn") != 100 || step(t, b, "covered_mean") != 160 {
		t.Errorf("steps %+v", b.Steps)
	}
}

// New base may not carry the farm above its cropland: 160 on 150 is pointed out.
func TestNewBaseAboveCropland(t *testing.T) {
	f := newBaseFarm()
	for cropland, want := range map[float64]bool{150: true, 160: false} {
		f.Cropland = invented.Number(cropland)
		if said := strings.Join(newBase(t, f, 1).Notes, " "); strings.Contains(said, "cropland") != want {
			t.Errorf("cropland %v: notes %q", cropland, said)
		}
	}
}

// step returns the value of a named step.
func step(t *testing.T, b FarmNewBase, name string) float64 {
	t.Helper()
	for _, s := range b.Steps {
		if s.Name == name {
			return s.Value.Value
		}
	}
	t.Fatalf("no step %s in %+v", name, b.Steps)
	return 0
}
