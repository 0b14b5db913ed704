package farm

import (
	"math"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// The least and the highest yield that is read without a question are judgements of this program,
// with no source of their own. They stand here a second time, so that none moves unseen: the least average
// and harvested yield and the most of either, in bushels or pounds per acre.
func TestYieldsAtTheBounds(t *testing.T) {
	rice, oilseed := [3]float64{1000, 250, 18000}, [3]float64{100, 20, 4000}
	bounds := map[crop.Commodity][3]float64{
		crop.Wheat: {1.5, 0, 200}, crop.Oats: {5, 0, 300}, crop.Barley: {5, 0, 250}, crop.Corn: {6, 0, 450}, crop.GrainSorghum: {5, 0, 300},
		crop.LongGrainRice: rice, crop.MediumGrainRice: rice, crop.TemperateJaponicaRice: rice, crop.Soybeans: {3, 0, 150},
		crop.SunflowerSeed: {150, 30, 6000}, crop.Rapeseed: {100, 30, 6000}, crop.Canola: {100, 3, 6000}, crop.Safflower: {100, 10, 6000},
		crop.Flaxseed: {3, 0, 100}, crop.MustardSeed: oilseed, crop.Crambe: oilseed, crop.SesameSeed: oilseed,
		crop.Peanuts: {200, 100, 10000}, crop.DryPeas: {200, 30, 8000}, crop.Lentils: {200, 30, 6000},
		crop.SmallChickpeas: {200, 50, 6000}, crop.LargeChickpeas: {200, 50, 6000}, crop.SeedCotton: {100, 0, 12000},
	}
	const step = 0.001 // less than any yield is written in
	for _, c := range crop.Commodities() {
		of, has := bounds[c]
		if !has {
			t.Errorf("%s: no bounds are written here", c)
		}
		for kind, least := range map[YieldKind]float64{Usual: of[0], Harvested: max(step, of[1])} {
			for yield, right := range map[float64]bool{least: true, least - step: least == step && kind == Harvested, of[2]: true, of[2] + step: false} {
				if fault := CheckYield("yield", c, kind, yield); (fault == nil) != right {
					t.Errorf("%s, kind %d: %v within the bounds: %v, want %v", c, kind, yield, fault == nil, right)
				}
			}
		}
	}
}

// A price is read from a fifth to six times the newest price of the list (P.L. 119-21, sec. 10301(b)): corn 4.10, so 0.82
// to 24.60; peanuts 630 a ton, 0.315 a pound, so 0.063 to 1.89; rice 16.90 a hundredweight, 0.169 a pound, so 0.0338 to 1.014.
func TestPricesAtTheBounds(t *testing.T) {
	for c, bounds := range map[crop.Commodity][2]float64{crop.Corn: {0.82, 24.60}, crop.Peanuts: {0.063, 1.89}, crop.LongGrainRice: {0.0338, 1.014}} {
		if least, most := PriceBounds(c); math.Abs(least-bounds[0]) > 1e-12 || math.Abs(most-bounds[1]) > 1e-12 {
			t.Errorf("%s: from %v to %v, by hand %v", c, least, most, bounds)
		}
		for price, right := range map[float64]bool{bounds[0] - 1e-6: false, bounds[0] + 1e-6: true, bounds[1] - 1e-6: true, bounds[1] + 1e-6: false} {
			if fault := CheckPrice("price", c, price); (fault == nil) != right {
				t.Errorf("%s at %v within the bounds: %v, want %v", c, price, fault == nil, right)
			}
		}
	}
}

// A number is read in another unit only where that would be plausible: standard weights of a bushel are those of the
// Department's handbook of conversion factors (60, 32, 48, 56, 56, 60, 56 pounds), a ton has 2,000 pounds and a hundredweight 100.
func TestUnitsThatANumberReadsLike(t *testing.T) {
	for c, pounds := range map[crop.Commodity]float64{crop.Wheat: 60, crop.Oats: 32, crop.Barley: 48, crop.Corn: 56, crop.GrainSorghum: 56, crop.Soybeans: 60, crop.Flaxseed: 56} {
		want := map[string]float64{"lb/acre": 1 / pounds, "ton/acre": 2000 / pounds, "cwt/acre": 100 / pounds}
		holdReadings(t, c, want)
	}
	for _, c := range []crop.Commodity{crop.Peanuts, crop.LongGrainRice, crop.SeedCotton} {
		holdReadings(t, c, map[string]float64{"ton/acre": 2000, "cwt/acre": 100})
	}
	// The trade's unit is tried first: rice by the hundredweight, peanuts by the ton.
	if rice, peanuts := yieldReadings(crop.LongGrainRice)[0].unit, yieldReadings(crop.Peanuts)[0].unit; rice != "cwt/acre" || peanuts != "ton/acre" {
		t.Errorf("rice is tried by %s first, peanuts by %s", rice, peanuts)
	}
	// 1,000,000 bushels of corn are no yield in any unit: by the pound they would be 17,857.
	if fault := CheckYield("yield", crop.Corn, Usual, 1e6); fault == nil || strings.HasPrefix(fault.Reason, unitSuspect) || fault.Hint != "from 6 to 450 bu/acre is possible" {
		t.Errorf("a million bushels: %+v", fault)
	}
}

func holdReadings(t *testing.T, c crop.Commodity, want map[string]float64) {
	t.Helper()
	all := yieldReadings(c)
	if len(all) != len(want) {
		t.Errorf("%s: %d readings, want %d", c, len(all), len(want))
	}
	for _, r := range all {
		if r.factor != want[r.unit] {
			t.Errorf("%s: a %s is %v, want %v", c, r.unit, r.factor, want[r.unit])
		}
	}
}

// As docs/formats.md says, a price is told by at least twenty values of one's own: fewer say little of one outcome in ten.
func TestLeastSamples(t *testing.T) {
	if LeastSamples != 20 {
		t.Errorf("%d values are asked for", LeastSamples)
	}
}
