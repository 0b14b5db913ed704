package law

import (
	"errors"
	"slices"
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
}

// A missing figure says which years have one, of all rows that count for the crop: prices of
// the 2014 Act are for crop year 2014 and later, of seed cotton from 2018 (7 U.S.C. 9011(19)); those of P.L. 119-21 end with 2031.
func TestMissingFigureNamesTheYears(t *testing.T) {
	for _, c := range []struct {
		id, want string
		crop     crop.Commodity
		year     crop.CropYear
	}{
		{"reference_price", "reference_price, seed_cotton, crop year 2017: no value before crop year 2018", crop.SeedCotton, 2017},
		{"reference_price", "reference_price, corn, crop year 2013: no value before crop year 2014", crop.Corn, 2013},
		{"reference_price", "reference_price, corn, crop year 2032: no value after crop year 2031", crop.Corn, 2032},
		{"reference_price_step", "reference_price_step, wheat, crop year 2030: no value before crop year 2031", crop.Wheat, 2030},
		{"price_decimals", "price_decimals, flaxseed, crop year 2032: no value after crop year 2031", crop.Flaxseed, 2032},
		{"reference_price", "reference_price, , crop year 2026: no value for this crop", "", 2026},
	} {
		_, err := Find(c.id, c.crop, c.year)
		if err == nil || err.Error() != "program/law: "+c.want || !errors.Is(err, ErrNoValue) {
			t.Errorf("%s %s %d: error %v, want %q", c.id, c.crop, c.year, err, c.want)
		}
	}
}

// Every row has an id that can be asked for and cites a source that is listed, once and in order.
func TestRowsAndTheirSources(t *testing.T) {
	ids, sources := IDs(), Sources()
	if !slices.IsSorted(ids) || !slices.Contains(ids, "reference_price") {
		t.Errorf("ids %v", ids)
	}
	for i, s := range sources {
		if i > 0 && sources[i-1].Key >= s.Key {
			t.Errorf("source %s stands after %s", s.Key, sources[i-1].Key)
		}
	}
	for _, id := range ids {
		for _, f := range Rows(id) {
			if got := SourceOf(f); f.ID != id || got.Key != f.Source || got.Title == "" {
				t.Errorf("%s %s: row of %s, source %+v", id, f.Commodity, f.ID, got)
			}
		}
	}
	// A list of rows is one's own: changing it changes nothing.
	Rows("reference_price")[0].Number = 17
	if first := Rows("reference_price")[0]; first.Number != 5.50 || first.Commodity != string(crop.Wheat) {
		t.Errorf("the first row is %+v", first)
	}
}
