package law

import (
	"errors"
	"testing"

	"fencerow/program/crop"
)

// A row for the commodity wins over its class and that over all; asking before
// the first row is an error that says so, never zero.
func TestFind(t *testing.T) {
	for _, c := range []struct {
		what string
		id   string
		crop crop.Commodity
		year crop.CropYear
		want float64
	}{
		{"list price of the 2014 Act", "reference_price", crop.Corn, 2024, 3.70},
		{"list price of the 2025 Act starts with crop year 2025", "reference_price", crop.Corn, 2025, 4.10},
		{"an oilseed takes the price of all other oilseeds", "reference_price", crop.Canola, 2026, 23.75},
		{"crop year 2025 pairs new reference prices with old loan rates", "loan_rate", crop.Corn, 2025, 2.20},
		{"flaxseed has a row of its own before its class", "loan_rate", crop.Flaxseed, 2018, 5.65},
		{"a figure for all commodities", "guarantee_share", crop.Wheat, 2025, 0.90},
		{"pound crops print four decimals", "price_decimals", crop.Peanuts, 2020, 4},
	} {
		f, err := Find(c.id, c.crop, c.year)
		if err != nil || f.Number != c.want {
			t.Errorf("%s: %s %s %d = %v, %v; want %v", c.what, c.id, c.crop, c.year, f.Number, err, c.want)
		}
	}
	_, err := Find("reference_price", crop.SeedCotton, 2017)
	if want := "program/law: reference_price, seed_cotton, crop year 2017: no value before crop year 2018"; err == nil || err.Error() != want || !errors.Is(err, ErrNoValue) {
		t.Errorf("seed cotton 2017: error %q, want %q", err, want)
	}
}
