package farm

import (
	"compress/gzip"
	"encoding/csv"
	"errors"
	"io"
	"io/fs"
	"os"
	"strconv"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// Every commodity has bounds, in which a price or yield in the trade's or the
// farmer's other unit does not lie.
func TestBoundsTellUnitsApart(t *testing.T) {
	for _, c := range crop.Commodities() {
		least, most := PriceBounds(c)
		if !(0 < least && least < most) {
			t.Errorf("%s: price bounds %v to %v", c, least, most)
		}
		for _, kind := range []YieldKind{Usual, Harvested} {
			if least, most := YieldBounds(c, kind); !(0 <= least && least < most) {
				t.Errorf("%s: yield bounds %v to %v", c, least, most)
			}
		}
		unit, factor := c.TradeUnit()
		if factor == 1 || c == crop.Flaxseed { // 56 lb of flaxseed are near a hundredweight
			continue
		}
		middle := (least + most) / 2
		if fault := CheckPrice("price", c, middle*factor); fault == nil || !strings.HasPrefix(fault.Reason, unitSuspect) {
			t.Errorf("%s: a price of %v %s passes as %s: %v", c, middle*factor, unit, c.Unit().Price(), fault)
		}
	}
}

func TestUnitSuspect(t *testing.T) {
	for _, c := range []struct {
		why  string
		got  *Fault
		want string // reason; "" where the value is right
	}{
		{"peanuts by the ton: 535 / 2000", CheckPrice("price", crop.Peanuts, 535), "unit_suspect: price: 535 USD/lb is not plausible. It reads like 535 USD/ton, which is 0.2675 USD/lb"},
		{"rice by the hundredweight: 16.9 / 100", CheckPrice("price", crop.LongGrainRice, 16.9), "unit_suspect: price: 16.9 USD/lb is not plausible. It reads like 16.9 USD/cwt, which is 0.169 USD/lb"},
		{"corn in cents: 410 / 100", CheckPrice("price", crop.Corn, 410), "unit_suspect: price: 410 USD/bu is not plausible. It reads like 410 cents/bu, which is 4.1 USD/bu"},
		{"seed cotton in cents: 36.7 / 100", CheckPrice("price", crop.SeedCotton, 36.7), "unit_suspect: price: 36.7 USD/lb is not plausible. It reads like 36.7 USD/cwt, which is 0.367 USD/lb"},
		{"no unit makes corn 48", CheckPrice("price", crop.Corn, 48), "price is 48 USD/bu"},
		{"a price is above 0", CheckPrice("price", crop.Corn, 0), "price is 0"},
		{"the highest corn price so far, of 2012", CheckPrice("price", crop.Corn, 6.89), ""},
		{"wheat in pounds: 2400 / 60", CheckYield("yield", crop.Wheat, Usual, 2400), "unit_suspect: yield: 2400 bu/acre is not plausible. It reads like 2400 lb/acre, which is 40 bu/acre"},
		{"rice by the hundredweight: 70 x 100", CheckYield("yield", crop.LongGrainRice, Harvested, 70), "unit_suspect: yield: 70 lb/acre is not plausible. It reads like 70 cwt/acre, which is 7000 lb/acre"},
		{"peanuts by the ton: 1.6 x 2000", CheckYield("yield", crop.Peanuts, Usual, 1.6), "unit_suspect: yield: 1.6 lb/acre is not plausible. It reads like 1.6 ton/acre, which is 3200 lb/acre"},
		{"corn by the short ton: 5 x 2000 / 56", CheckYield("yield", crop.Corn, Usual, 5), "unit_suspect: yield: 5 bu/acre is not plausible. It reads like 5 ton/acre, which is 178.6 bu/acre"},
		{"a dry year brings 3 bushels of wheat", CheckYield("yield", crop.Wheat, Harvested, 3), ""},
		{"a failed crop brings nothing", CheckYield("yield", crop.Peanuts, Harvested, 0), ""},
		{"a benchmark is never nothing", CheckYield("yield", crop.Wheat, Usual, 0), "yield is 0"},
		{"no yield is negative", CheckYield("yield", crop.Wheat, Harvested, -1), "yield is -1"},
	} {
		got := ""
		if c.got != nil {
			got = c.got.Reason
			if c.got.Hint == "" {
				t.Errorf("%s: no hint", c.why)
			}
		}
		if got != c.want {
			t.Errorf("%s:\ngot  %q\nwant %q", c.why, got, c.want)
		}
	}
}

// outOfBounds counts the yields of FSA's own county tables that the bounds
// refuse: a dozen slips of the tables, each carried on as a lagged yield. They
// are 45 for rice in four counties of 2014 (hundredweights), 3562 for barley
// and 1890 for flaxseed (pounds), and yields three to thirty times those of the
// neighbors, such as 1131 bushels of soybeans. Bounds that took them in could
// not tell pounds from bushels.
var outOfBounds = map[crop.Commodity]int{
	crop.Oats: 2, crop.Barley: 1, crop.Corn: 4, crop.LongGrainRice: 8, crop.Soybeans: 6, crop.SunflowerSeed: 2, crop.Flaxseed: 3, crop.Lentils: 2,
}

// The bounds refuse no yield of FSA's county tables but the listed slips, and
// no price of FSA's price tables.
func TestBoundsAgainstAgencyTables(t *testing.T) {
	const shared = "../../../shared/data/fsa/"
	checked, refused := 0, map[crop.Commodity]int{}
	usual := []string{"yield_lag6", "yield_lag5", "yield_lag4", "yield_lag3", "yield_lag2", "benchmark_yield"}
	for _, name := range []string{"arcco_county_py2014_2018.csv.gz", "arcco_county_py2019_2025.csv.gz"} {
		eachAgencyRow(t, shared+name, func(row map[string]string) {
			c, ok := crop.ParseCommodity(agencySpelling(row))
			if !ok {
				t.Fatalf("unknown commodity %v", row)
			}
			for _, column := range usual {
				checked += checkYield(t, row, column, c, Usual, refused)
			}
			checked += checkYield(t, row, "actual_yield", c, Harvested, refused)
		})
	}
	for _, c := range crop.Commodities() {
		if refused[c] != outOfBounds[c] {
			t.Errorf("%s: %d yields of the agency are refused, %d are listed", c, refused[c], outOfBounds[c])
		}
	}
	const all = 799125 // yields in the tables of program years 2014-2025
	if checked != all {
		t.Errorf("%d county yields found, %d expected", checked, all)
	}
	t.Logf("checked %d of %d county yields", checked, all)
	prices := 0
	eachAgencyRow(t, shared+"mya_prices_2009_2024.csv", func(row map[string]string) {
		c, ok := crop.ParseCommodity(strings.Replace(row["commodity"], "temporate", "temperate", 1))
		price, err := strconv.ParseFloat(row["mya_price"], 64)
		if !ok || err != nil {
			t.Fatalf("row %v: %v", row, err)
		}
		if fault := CheckPrice(string(c), c, price); fault != nil {
			t.Error(fault.Reason)
		}
		prices++
	})
	const allPrices = 1632 // of eleven tables
	if prices != allPrices {
		t.Errorf("%d national prices found, %d expected", prices, allPrices)
	}
	t.Logf("checked %d of %d national prices", prices, allPrices)
}

// agencySpelling returns FSA's name of the commodity of a row; its tables of
// 2014-2018 were read from a copy with names of its own.
func agencySpelling(row map[string]string) string {
	if name, ok := row["crop_name"]; ok {
		return name
	}
	if row["crop"] == "cotton" {
		return "seed cotton"
	}
	return row["crop"]
}

// checkYield counts a yield of the agency, and those that are refused.
func checkYield(t *testing.T, row map[string]string, column string, c crop.Commodity, kind YieldKind, refused map[crop.Commodity]int) int {
	if row[column] == "" {
		return 0
	}
	yield, err := strconv.ParseFloat(row[column], 64)
	if err != nil {
		t.Fatal(err)
	}
	if fault := CheckYield(row["program_year"]+" "+row["st_cty"]+" "+string(c)+" "+column, c, kind, yield); fault != nil {
		refused[c]++
		if refused[c] > outOfBounds[c] {
			t.Log(fault.Reason)
		}
	}
	return 1
}

// eachAgencyRow calls read for every row of a CSV of the shared folder, or
// skips the test where that is not there.
func eachAgencyRow(t *testing.T, name string, read func(row map[string]string)) {
	t.Helper()
	file, err := os.Open(name)
	if errors.Is(err, fs.ErrNotExist) {
		t.Skipf("NOT CHECKED: plausible yields and prices against %s, which is not here", name)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	var from io.Reader = file
	if strings.HasSuffix(name, ".gz") {
		if from, err = gzip.NewReader(file); err != nil {
			t.Fatal(err)
		}
	}
	lines := csv.NewReader(from)
	header, err := lines.Read()
	if err != nil {
		t.Fatal(err)
	}
	for {
		line, err := lines.Read()
		if err == io.EOF {
			return
		}
		if err != nil {
			t.Fatal(err)
		}
		row := make(map[string]string, len(header))
		for i, column := range header {
			row[column] = line[i]
		}
		read(row)
	}
}
