package fit

import (
	"encoding/csv"
	"maps"
	"math"
	"os"
	"reflect"
	"strconv"
	"testing"

	"fencerow/program/crop"
)

// longPrices returns the marketing-year average prices of NASS, or skips the test.
func longPrices(t *testing.T, what string) Prices {
	t.Helper()
	file, err := os.Open(sharedData + "/nass/national_marketing_year_average_prices.csv")
	if err != nil {
		t.Skipf("NOT CHECKED: %s, ../shared is absent", what)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	names := map[string]crop.Commodity{"Corn": crop.Corn, "Wheat": crop.Wheat, "Grain Sorghum": crop.GrainSorghum, "Barley": crop.Barley, "Oats": crop.Oats,
		"Peanuts": crop.Peanuts, "Canola": crop.Canola, "Sunflowers": crop.SunflowerSeed, "Flax": crop.Flaxseed, "Dry Peas": crop.DryPeas}
	prices := Prices{}
	for _, row := range rows[1:] {
		c, known := names[row[0]]
		year, errYear := strconv.Atoi(row[1])
		price, errPrice := strconv.ParseFloat(row[2], 64)
		if errYear != nil || errPrice != nil {
			t.Fatalf("row %v", row)
		}
		if prices[c] == nil {
			prices[c] = map[crop.CropYear]crop.Price{}
		}
		if known {
			prices[c][year] = price
		}
	}
	return prices
}

// The estimates. An outside count found realised errors of years 2 to 5 10 to 28 percent
// above the model, and innovations about 1.15 wider.
func TestPriceInnovations(t *testing.T) {
	p := longPrices(t, "innovations of prices")
	estimates := PriceInnovations(p)
	holdRows(t, estimates)
	later := estimates[len(estimates)-1]
	for _, path := range laterPaths(p) {
		for k := firstLater; k <= lastLater; k++ {
			rms, n := path.realized(k, -1)
			t.Logf("%s, %s, year %d: realized %.3f, model %.3f, with the factor %.3f, n %d", path.commodity, path.stage, k, rms, path.model(k, 1), path.model(k, later.Value), n)
		}
	}
}

// Whatever the prices of the years that are held back, the estimates are the same.
func TestHeldBackPricesMoveNothing(t *testing.T) {
	p := longPrices(t, "that prices of 2016 and 2022 are held back")
	other := Prices{}
	for c, prices := range p {
		other[c] = maps.Clone(prices)
		other[c][2016], other[c][2022] = 1000, 0.001
	}
	if got, want := PriceInnovations(other), PriceInnovations(p); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, were %v", got, want)
	}
}

// The model's path in closed form: with phi = 0.8 a known price and innovations of 0.2 give
// 0.2, 0.2 sqrt(1.64) and 0.2 sqrt(1 + 0.64 + 0.4096) in the second, third and fourth year;
// a first year of 0.3 and a factor of 2 give sqrt(0.24^2 + 0.4^2) in the second.
func TestPathsOfTheModel(t *testing.T) {
	known := laterPath{change: 0.2}
	for k, want := range map[int]float64{2: 0.2, 3: 0.2 * math.Sqrt(1.64), 4: 0.2 * math.Sqrt(2.0496)} {
		if got := known.model(k, 1); math.Abs(got-want) > 1e-12 {
			t.Errorf("year %d: %g, want %g", k, got, want)
		}
	}
	if got, want := (laterPath{first: 0.3, change: 0.2}).model(2, 2), math.Hypot(0.24, 0.4); math.Abs(got-want) > 1e-12 {
		t.Errorf("year 2: %g, want %g", got, want)
	}
}

// Errors exactly as wide as innovations 1.2 times the model's give a factor of 1.2.
func TestWideningFindsTheFactor(t *testing.T) {
	path := laterPath{first: 0.18, change: 0.2}
	for k := firstLater; k <= lastLater; k++ {
		v := path.model(k, 1.2)
		path.errors[k] = yearly{1991: v, 1992: -v, 1993: v}
	}
	if got := widening([]laterPath{path}, -1); math.Abs(got-1.2) > 1e-9 {
		t.Errorf("factor %g, want 1.2", got)
	}
}

// Changes that go and come by turns about a line have a slope of -1 and no innovation;
// points on a line give it back.
func TestLinesThroughPoints(t *testing.T) {
	if height, slope := leastSquares([]float64{1, 2, 3}, []float64{5, 7, 9}); math.Abs(height-3) > 1e-12 || math.Abs(slope-2) > 1e-12 {
		t.Errorf("height %g and slope %g, want 3 and 2", height, slope)
	}
	if sd, n := innovation(yearly{2001: 1, 2002: -1, 2003: 1, 2004: -1, 2005: 1}); sd > 1e-9 || n != 4 {
		t.Errorf("innovation %g of %d pairs, want 0 of 4", sd, n)
	}
}
