package odds

import (
	"encoding/csv"
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// readPast reads the prices that the rules are tried on.
func readPast(t *testing.T) pastPrices {
	t.Helper()
	if _, err := os.Stat("../../../shared"); err != nil {
		fmt.Println("NOT CHECKED: the rules that carry prices, ../shared is absent")
		t.SkipNow()
	}
	p := pastPrices{final: map[crop.Commodity]map[int]float64{}, september: map[crop.Commodity]map[int]float64{}, seed: map[int]float64{}, late: map[crop.Commodity]float64{}}
	p.readFinal(t)
	p.readSeptember(t)
	return p
}

// readFinal reads final prices: the built-in ones of covered commodities, WASDE's
// of what is not covered, NASS's of cottonseed.
func (p pastPrices) readFinal(t *testing.T) {
	put := func(c crop.Commodity, year, price string, factor float64) {
		if p.final[c] == nil {
			p.final[c] = map[int]float64{}
		}
		p.final[c][asYear(t, year)] = asNumber(t, price) * factor
	}
	for _, r := range readCSV(t, "../../io/read/market/builtin.csv") {
		if r["status"] == "agency" {
			put(crop.Commodity(r["commodity"]), r["crop_year"], r["value"], 1)
		} else if r["crop_year"] == "2024" {
			p.late[crop.Commodity(r["commodity"])] = asNumber(t, r["value"])
		}
	}
	for _, r := range readCSV(t, "../../../shared/facts/prices/mya.csv") {
		switch {
		case r["status"] != "final" || r["crop_year"] < "2009":
		case r["commodity"] == "upland_cotton_lint":
			put(crop.UplandCottonLint, r["crop_year"], r["value"], 0.01) // cents/lb
		case r["commodity"] == "medium_short_grain_rice_with_japonica":
			put(crop.MediumAndShortGrainRice, r["crop_year"], r["value"], 0.01) // USD/cwt
		case r["commodity"] == "cottonseed":
			p.seed[asYear(t, r["crop_year"])] = asNumber(t, r["value"]) / 2000 // USD/ton
		}
	}
	for _, r := range readCSV(t, "../../../shared/data/fsa/mya_prices_2009_2024.csv") {
		c, known := crop.ParseCommodity(r["commodity"])
		if known && r["status"] == "P" && r["table_program_year"] == "2024" && r["crop_year"] == "2024" {
			p.late[c] = asNumber(t, r["mya_price"])
		}
	}
}

// readSeptember reads USDA's projections of the crop being harvested.
func (p pastPrices) readSeptember(t *testing.T) {
	names := map[string]crop.Commodity{"Wheat": crop.Wheat, "Soybeans": crop.Soybeans, "Sorghum": crop.GrainSorghum, "Barley": crop.Barley, "Oats": crop.Oats,
		"Long-Grain Rice": crop.LongGrainRice, "Medium & Short-Grain Rice": crop.MediumAndShortGrainRice, "Upland Cotton": crop.UplandCottonLint}
	for _, r := range readCSV(t, "../../../shared/data/wasde/us_season_average_price_2010_2025.csv") {
		c, counts := names[r["commodity"]]
		year := r["market_year"][:4]
		if !counts || r["status"] != "Proj." || r["column"] == "previous" || r["report_date"][:7] != year+"-09" {
			continue
		}
		factor := 1.0
		if r["unit"] != "$/bu" {
			factor = 0.01 // cents/lb and USD/cwt to USD/lb
		}
		if p.september[c] == nil {
			p.september[c] = map[int]float64{}
		}
		p.september[c][asYear(t, year)] = factor * (asNumber(t, r["low"]) + asNumber(t, r["high"])) / 2
	}
}

func read(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

func readCSV(t *testing.T, name string) (rows []map[string]string) {
	t.Helper()
	lines, err := csv.NewReader(strings.NewReader(read(t, name))).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	for _, line := range lines[1:] {
		row := map[string]string{}
		for i, column := range lines[0] {
			row[column] = line[i]
		}
		rows = append(rows, row)
	}
	return rows
}

func asYear(t *testing.T, text string) int {
	t.Helper()
	year, err := strconv.Atoi(text)
	if err != nil {
		t.Fatal(err)
	}
	return year
}

func asNumber(t *testing.T, text string) float64 {
	t.Helper()
	x, err := strconv.ParseFloat(text, 64)
	if err != nil {
		t.Fatal(err)
	}
	return x
}
