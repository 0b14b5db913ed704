package fit

import (
	"encoding/csv"
	"math"
	"os"
	"strconv"
	"testing"

	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// insurancePrices reads the prices of crop insurance that were collected, or skips the test.
func insurancePrices(t *testing.T, what string) (pairs []PricePair, volatility map[PricePair]float64) {
	t.Helper()
	file, err := os.Open(sharedData + "/rma/midwest_projected_harvest_prices_2011_2025.csv")
	if err != nil {
		t.Skipf("NOT CHECKED: %s, ../shared is absent", what)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	type key struct {
		commodity crop.Commodity
		cropYear  crop.CropYear
	}
	found := map[key]map[string]float64{}
	var order []key
	for _, row := range rows[1:] {
		y, _ := strconv.Atoi(row[1])
		k := key{crop.Commodity(row[0]), y}
		if found[k] == nil {
			found[k], order = map[string]float64{}, append(order, k)
		}
		if found[k][row[2]], err = strconv.ParseFloat(row[3], 64); err != nil {
			t.Fatalf("row %v", row)
		}
	}
	volatility = map[PricePair]float64{}
	for _, k := range order {
		p := PricePair{k.commodity, k.cropYear, found[k]["projected"], found[k]["harvest"]}
		if p.Projected > 0 && p.Harvest > 0 {
			pairs, volatility[p] = append(pairs, p), found[k]["volatility"]
		}
	}
	return pairs, volatility
}

// The correlation of the harvest price with the national price is what the prices at hand
// give. Its error is wide, for pairs are few.
func TestHarvestPrices(t *testing.T) {
	pairs, _ := insurancePrices(t, "correlation of the harvest price")
	e := HarvestPrices(pairs, misses(t))
	holdRows(t, []Estimate{e})
	if e.Count < fewestPairs || e.Error <= 0 || e.Value <= 0 || e.Value >= 1 {
		t.Errorf("%+v", e)
	}
}

// What the harvest price has in common with county yields is no more than what it has
// through the national price: the mean of corn and soybeans in Illinois and Michigan, rows of
// the price, times the correlation of both prices.
func TestHarvestPriceYieldsFollowThePrice(t *testing.T) {
	pairs, _ := insurancePrices(t, "harvest price with county yields")
	r, err, counties := HarvestPriceYields(pairs, agencies(t, "harvest price with county yields"))
	through := 0.0
	places := []string{"17", "26"}
	for _, c := range []crop.Commodity{crop.Corn, crop.Soybeans} {
		for _, state := range places {
			with, _ := odds.PriceYieldCorrelation(c, state, "all")
			through += odds.HarvestPriceCorrelation() * with / float64(2*len(places))
		}
	}
	t.Logf("measured %.2f, standard error %.2f, %d county series; through the price %.2f", r, err, counties, through)
	if math.Abs(r-through) > 2*err {
		t.Errorf("measured %.2f with standard error %.2f, through the price %.2f", r, err, through)
	}
}

// Prices of the crop years held back enter nothing.
func TestHeldBackHarvestPricesMoveNothing(t *testing.T) {
	pairs, _ := insurancePrices(t, "that harvest prices of 2016 and 2022 are held back")
	want := surprises(pairs)
	for i, p := range pairs {
		if HeldBack(p.CropYear) {
			pairs[i].Harvest *= 3
		}
	}
	for c, s := range surprises(pairs) {
		for y, x := range s {
			if HeldBack(y) || want[c][y] != x {
				t.Errorf("%s %d is %v, was %v", c, y, x, want[c][y])
			}
		}
	}
}

// By hand: over the years that both series have, one moves with the other, one against it.
func TestSharedYearsAlone(t *testing.T) {
	a := yearly{2001: 1, 2002: 2, 2003: 3, 2004: 4, 2005: 5, 2006: 600}
	with, against := pairSums{}, pairSums{}
	if !addShared(with, a, yearly{2001: 10, 2002: 20, 2003: 30, 2004: 40, 2005: 50, 1990: -7}) || !addShared(against, a, yearly{2001: -1, 2002: -2, 2003: -3, 2004: -4, 2005: -5}) {
		t.Fatal("five shared years are enough")
	}
	if addShared(pairSums{}, a, yearly{2001: 1, 2002: 2, 2003: 3, 2004: 5}) {
		t.Error("four shared years are too few")
	}
	if m := with.measure(map[string]bool{}); math.Abs(m.value-1) > 1e-12 {
		t.Errorf("%v, want 1", m.value)
	}
	if m := against.measure(map[string]bool{}); math.Abs(m.value+1) > 1e-12 {
		t.Errorf("%v, want -1", m.value)
	}
}

// How the harvest price came out beside its volatility factor: standardized surprises have a
// spread near one.
func TestVolatilityFactorHolds(t *testing.T) {
	pairs, volatility := insurancePrices(t, "volatility factors against harvest prices")
	squares, n := 0.0, 0
	for _, p := range pairs {
		v := volatility[p]
		if v == 0 {
			continue
		}
		z := (math.Log(p.Harvest/p.Projected) + v*v/2) / v
		squares, n = squares+z*z, n+1
		t.Logf("%s %d: %.2f to %.2f, factor %.2f, %+.2f", p.Commodity, p.CropYear, p.Projected, p.Harvest, v, z)
	}
	rms := math.Sqrt(squares / float64(n))
	t.Logf("root mean square %.2f of %d, standard error %.2f", rms, n, rms/math.Sqrt(2*float64(n)))
	if n < 10 || math.Abs(rms-1) > 3*rms/math.Sqrt(2*float64(n)) {
		t.Errorf("surprises over their volatility factors have a root mean square of %.2f, n = %d", rms, n)
	}
}
