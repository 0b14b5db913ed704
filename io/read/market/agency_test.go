package market

import (
	"encoding/csv"
	"errors"
	"fmt"
	"io/fs"
	"math"
	"os"
	"strconv"
	"strings"
	"testing"
	"time"

	"fencerow/program/crop"
)

const shared = "../../../../shared"

// table returns the rows of a CSV of the shared folder as maps by column, or
// skips the test where the folder is not there.
func table(t *testing.T, name string) []map[string]string {
	t.Helper()
	file, err := os.Open(shared + "/" + name)
	if errors.Is(err, fs.ErrNotExist) {
		t.Skipf("NOT CHECKED: built-in prices against %s, which is not here", name)
	}
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	lines, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	var rows []map[string]string
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func number(t *testing.T, text string) float64 {
	t.Helper()
	v, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return v
}

// commodity reads FSA's spelling, one of which is misprinted.
func commodity(t *testing.T, spelling string) crop.Commodity {
	t.Helper()
	c, ok := crop.ParseCommodity(strings.Replace(spelling, "temporate", "temperate", 1))
	if !ok {
		t.Fatalf("unknown crop %q", spelling)
	}
	return c
}

// price is a price in the unit of its commodity, where it is from and when it
// was printed.
type price struct {
	value  float64
	status crop.Status
	source string
	asOf   string
}

type priced struct {
	commodity crop.Commodity
	year      crop.CropYear
}

// fsaPrices returns, of FSA's price tables, the final price as first printed
// and the projection as last printed.
func fsaPrices(t *testing.T) (final, projected map[priced]price) {
	final, projected = map[priced]price{}, map[priced]price{}
	for _, row := range table(t, "data/fsa/mya_prices_2009_2024.csv") {
		asOf, err := time.Parse("January 2, 2006", row["as_of"])
		if err != nil {
			t.Fatal(err)
		}
		year, _ := strconv.Atoi(row["crop_year"])
		key := priced{commodity(t, row["commodity"]), year}
		p := price{number(t, row["mya_price"]), crop.Agency, "FSA-MYA-" + row["table_program_year"], asOf.Format(time.DateOnly)}
		if row["status"] == "F" {
			if first, ok := final[key]; !ok || p.asOf < first.asOf {
				final[key] = p
			}
			continue
		}
		p.status = crop.Projected
		if last, ok := projected[key]; !ok || p.asOf > last.asOf {
			projected[key] = p
		}
	}
	return final, projected
}

// otherPrices returns the prices of NASS and of WASDE-675 in the unit of their
// commodity. Prices of what is no covered crop, such as all rice or cotton
// lint, are left out.
func otherPrices(t *testing.T) (nass, wasdeFinal, wasdeProjected map[priced]price) {
	nass, wasdeFinal, wasdeProjected = map[priced]price{}, map[priced]price{}, map[priced]price{}
	for _, row := range table(t, "facts/prices/mya.csv") {
		c := crop.Commodity(row["commodity"])
		if c.Index() < 0 {
			continue
		}
		year, _ := strconv.Atoi(row["crop_year"])
		value := number(t, row["value"])
		if row["unit"] == "$/cwt" && c == crop.GrainSorghum {
			value = math.Round(value*56) / 100 // 56 lb a bushel, to the cent
		} else if row["unit"] == "$/cwt" {
			value /= 100
		}
		key := priced{c, year}
		switch row["source_id"] + " " + row["status"] {
		case "nass_qs_mya final":
			nass[key] = price{value, crop.Agency, "NASS-QS-2025", "2025-12-23"}
		case "wasde_2026_09 final":
			wasdeFinal[key] = price{value, crop.Agency, "WASDE-675", "2026-09-11"}
		case "wasde_2026_09 projected":
			wasdeProjected[key] = price{value, crop.Projected, "WASDE-675", "2026-09-11"}
		}
	}
	return nass, wasdeFinal, wasdeProjected
}

// Every built-in row is what the order of sources gives from the published
// tables, and no row is missing.
func TestBuiltinAgainstTables(t *testing.T) {
	const noise = 1e-12 // of conversion in binary
	fsaFinal, fsaProjected := fsaPrices(t)
	nass, wasdeFinal, wasdeProjected := otherPrices(t)
	order := []map[priced]price{fsaFinal, nass, wasdeFinal, wasdeProjected, fsaProjected}
	got := map[priced]price{}
	err := eachRow("builtin.csv", builtinFile, builtinHeader, func(row []string) error {
		year, err := strconv.Atoi(row[1])
		got[priced{crop.Commodity(row[0]), year}] = price{number(t, row[2]), crop.Status(row[4]), row[5], row[6]}
		return err
	})
	if err != nil {
		t.Fatal(err)
	}
	checked, wanted := 0, 0
	for _, c := range crop.Commodities() {
		for year := 2009; year <= 2026; year++ {
			key := priced{c, year}
			want, ok := price{}, false
			for _, source := range order {
				if want, ok = source[key]; ok {
					break
				}
			}
			if !ok {
				if _, there := got[key]; there {
					t.Errorf("%s %d stands in builtin.csv and in no table", c, year)
				}
				continue
			}
			wanted++
			if math.Abs(got[key].value-want.value) > noise || got[key].status != want.status || got[key].source != want.source || got[key].asOf != want.asOf {
				t.Errorf("%s %d: built in %+v, tables %+v", c, year, got[key], want)
				continue
			}
			checked++
		}
	}
	if checked != wanted || checked != len(got) {
		t.Errorf("%d rows in builtin.csv", len(got))
	}
	t.Logf("checked %d of %d built-in prices", checked, wanted)
}

// Every price that others follow is what WASDE printed, in USD/lb.
func TestSeriesAgainstTables(t *testing.T) {
	const noise = 1e-12 // of conversion in binary
	printed := map[string]float64{}
	names := map[string]crop.Commodity{"upland_cotton_lint": crop.UplandCottonLint, "medium_short_grain_rice_with_japonica": crop.MediumAndShortGrainRice}
	sources := map[string]string{"wasde_xml_2010_2025": "WASDE-660", "wasde_2026_09": "WASDE-675"}
	for _, row := range table(t, "facts/prices/mya.csv") {
		c, follow := names[row["commodity"]]
		if !follow {
			continue
		}
		status := map[string]crop.Status{"final": crop.Agency, "projected": crop.Projected}[row["status"]]
		// both are in hundredths: cents a pound, and dollars a hundredweight
		printed[fmt.Sprintf("%s %s %s %s", c, row["crop_year"], status, sources[row["source_id"]])] = number(t, row["value"]) / 100
	}
	checked := 0
	err := eachRow("series.csv", seriesFile, builtinHeader, func(row []string) error {
		name := fmt.Sprintf("%s %s %s %s", row[0], row[1], row[4], row[5])
		want, has := printed[name]
		if got := number(t, row[2]); !has || math.Abs(got-want) > noise {
			t.Errorf("%s: built in %v, printed %v", name, got, want)
		}
		checked++
		return nil
	})
	if err != nil || checked != 8 {
		t.Errorf("checked %d of 8 prices, %v", checked, err)
	}
	t.Logf("checked %d of %d prices that others follow", checked, checked)
}

// Each annual benchmark price that FSA prints for ARC-CO is the built-in price
// of its crop year, raised to the (effective) reference price of the table: to
// the last digit and without exception, so FSA reckons with the price it first
// printed as final.
func TestBenchmarkPricesAgainstTables(t *testing.T) {
	const noise = 1e-12 // decimals in binary
	m := Builtin()
	checked, wanted := 0, 0
	for _, row := range table(t, "data/fsa/arcco_prices_py2014_2024.csv") {
		program, _ := strconv.Atoi(row["program_year"])
		c := commodity(t, row["commodity"])
		oldest := program - 5 // 2014-2018: the five crop years before
		if program >= 2019 {
			oldest = program - 6
		}
		for lag := 5; lag >= 1; lag-- {
			printed, year := row[fmt.Sprintf("benchmark_lag%d", lag)], oldest+5-lag
			wanted++
			figure, ok := m.MYA[c][year]
			want := max(figure.Value, number(t, row["reference_price"]))
			if !ok || math.Abs(want-number(t, printed)) > noise {
				t.Errorf("table %d, %s %d: FSA prints %s, built in %v (price %v, reference %s)", program, c, year, printed, want, figure.Value, row["reference_price"])
				continue
			}
			checked++
		}
	}
	t.Logf("checked %d of %d annual benchmark prices", checked, wanted)
	const all = 1245 // 249 rows of five prices in the tables of 2014-2024
	if wanted != all {
		t.Errorf("%d prices found, %d expected", wanted, all)
	}
}
