package main

import (
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"fencerow/program/crop"
)

// inventedYields are plausible county yields, bu or lb an acre.
var inventedYields = map[crop.Commodity]float64{
	crop.Wheat: 48, crop.Oats: 62, crop.Barley: 70, crop.Corn: 165, crop.GrainSorghum: 80, crop.LongGrainRice: 7300, crop.MediumGrainRice: 7500,
	crop.TemperateJaponicaRice: 8500, crop.Soybeans: 50, crop.SunflowerSeed: 1600, crop.Rapeseed: 1500, crop.Canola: 1700, crop.Safflower: 1200,
	crop.Flaxseed: 20, crop.MustardSeed: 700, crop.Crambe: 1200, crop.SesameSeed: 500, crop.Peanuts: 3800, crop.DryPeas: 1900, crop.Lentils: 1200,
	crop.SmallChickpeas: 1300, crop.LargeChickpeas: 1400, crop.SeedCotton: 2100,
}

// priced is what a comparison says of one commodity in one crop year.
type priced struct {
	Commodity string
	MYA       *struct {
		Mean   float64
		Status string
		Source string
	} `json:"mya"`
	Programs map[string]*struct {
		Mean   *float64
		Chance *float64 `json:"chance_of_payment"`
	}
}

type pricedFarm struct {
	Commodities []priced
	Flags       []struct{ Code, Severity, Message string }
}

// everyCommodity writes an invented farm with base of all 23 commodities and the
// county file of its county.
func everyCommodity(t *testing.T, folder string) (operation string) {
	t.Helper()
	var farms, county strings.Builder
	farms.WriteString("format: fencerow/operation/1\ncounty_files: [cedar.yaml]\nfarms:\n  - farm: 1\n    county: 99007\n    bases:\n")
	county.WriteString("format: fencerow/county/1\ncode: \"99007\"\nname: Cedar County\nyields:\n")
	for _, c := range crop.Commodities() {
		y := inventedYields[c]
		fmt.Fprintf(&farms, "      - {commodity: %s, base_acres: 100, payment_yield: %g}\n", c, 0.9*y)
		fmt.Fprintf(&county, "  - commodity: %s\n    practice: all\n    adjusted:\n", c)
		for _, year := range []int{2026, 2027} {
			fmt.Fprintf(&county, "      %d: [%.2f, %.2f, %.2f, %.2f, %.2f]\n", year, 0.9*y, 0.95*y, y, 1.05*y, 1.1*y)
		}
	}
	operation = filepath.Join(folder, "farms.yaml")
	for name, text := range map[string]string{operation: farms.String(), filepath.Join(folder, "cedar.yaml"): county.String()} {
		if err := os.WriteFile(name, []byte(text), 0o600); err != nil {
			t.Fatal(err)
		}
	}
	return operation
}

// askPrices compares both crop years without a county book.
func askPrices(t *testing.T, operation string, more ...string) []pricedFarm {
	t.Helper()
	var c struct {
		CropYears []struct{ Farms []pricedFarm } `json:"crop_years"`
	}
	args := append([]string{"compare", operation, "--book", "none", "--today", demoToday, "--crop-year", "2026,2027", "--draws", "1024", "--json"}, more...) // the last --crop-year counts
	if err := json.Unmarshal([]byte(runs(t, args...)), &c); err != nil {
		t.Fatal(err)
	}
	var years []pricedFarm
	for _, y := range c.CropYears {
		years = append(years, y.Farms[0])
	}
	return years
}

// Every one of the 23 commodities has PLC odds in crop years 2026 and 2027 with
// nothing given but the farm and its county, and so has ARC-CO.
func TestEveryCommodityHasOdds(t *testing.T) {
	checked := 0
	for i, y := range askPrices(t, everyCommodity(t, t.TempDir())) {
		if len(y.Commodities) != len(crop.Commodities()) {
			t.Fatalf("crop year %d: %d commodities answered", 2026+i, len(y.Commodities))
		}
		for _, c := range y.Commodities {
			for _, program := range []string{"PLC", "ARC-CO"} {
				odds := c.Programs[program]
				if c.MYA == nil || odds == nil || odds.Mean == nil || odds.Chance == nil {
					t.Errorf("crop year %d, %s: price %+v, %s %+v", 2026+i, c.Commodity, c.MYA, program, odds)
					continue
				}
				checked++
			}
			if i == 0 && c.MYA != nil {
				t.Logf("%s 2026: %.4f %s, PLC %.2f in %.0f of 100", c.Commodity, c.MYA.Mean, c.MYA.Status, *c.Programs["PLC"].Mean, 100**c.Programs["PLC"].Chance)
			}
		}
		for _, f := range y.Flags {
			if f.Code == "no_price_projection" {
				t.Errorf("crop year %d: %s", 2026+i, f.Message)
			}
		}
	}
	t.Logf("checked %d of %d odds", checked, 2*2*len(crop.Commodities()))
}

// PLC has odds in every other crop year of 2025 to 2031 too.
func TestEveryYearHasOdds(t *testing.T) {
	checked := 0
	for _, y := range askPrices(t, everyCommodity(t, t.TempDir()), "--crop-year", "2025,2028,2029,2030,2031") {
		for _, c := range y.Commodities {
			if plc := c.Programs["PLC"]; c.MYA == nil || plc == nil || plc.Mean == nil || plc.Chance == nil {
				t.Errorf("%s: price %+v, PLC %+v", c.Commodity, c.MYA, plc)
				continue
			}
			checked++
		}
	}
	if want := 5 * len(crop.Commodities()); checked != want {
		t.Errorf("checked %d of %d", checked, want)
	}
	t.Logf("checked %d of %d odds of PLC", checked, 5*len(crop.Commodities()))
}

// The other odds and pages take carried prices as well.
func TestEveryCommodityElsewhere(t *testing.T) {
	folder := t.TempDir()
	operation := everyCommodity(t, folder)
	for _, more := range [][]string{{"--tail", "t"}, {"--page", filepath.Join(folder, "page.html")}, {"--workbook", filepath.Join(folder, "book.xlsx")}} {
		args := append([]string{"compare", operation, "--book", "none", "--today", demoToday, "--crop-year", "2026", "--draws", "256"}, more...)
		runs(t, args...)
	}
	page, err := os.ReadFile(filepath.Join(folder, "page.html"))
	if err != nil || !strings.Contains(string(page), "so the last one is carried") || strings.Contains(string(page), "{format:") {
		t.Errorf("%v: a page says that prices are carried, without a file to copy from paper", err)
	}
	shown := runs(t, "market", "show", "--crop-year", "2025,2026,2031", "--book", "none", "--today", demoToday)
	for _, c := range crop.Commodities() {
		if n := strings.Count(shown, "\n  "+c.Name()+","); n != 3 {
			t.Errorf("market show has %s %d times:\n%s", c.Name(), n, shown)
		}
	}
}

// What the flag offers is a market file: saved as it is, it answers as before and
// raises no such flag; with another price it overrides.
func TestSnippetIsAMarketFile(t *testing.T) {
	folder := t.TempDir()
	operation := everyCommodity(t, folder)
	before := askPrices(t, operation)
	snippet := carriedFlag(t, before[1])
	name := filepath.Join(folder, "market.yaml")
	if err := os.WriteFile(name, []byte(snippet[strings.Index(snippet, "{format:"):]), 0o600); err != nil {
		t.Fatal(err)
	}
	after := askPrices(t, operation, "--market", name)
	checked := 0
	for _, was := range before[1].Commodities {
		is := find(after[1], was.Commodity)
		if *was.Programs["PLC"].Mean != *is.Programs["PLC"].Mean || was.MYA.Mean != is.MYA.Mean {
			t.Errorf("%s: %v and %v with the file that the flag offers", was.Commodity, *was.Programs["PLC"].Mean, *is.Programs["PLC"].Mean)
		}
		if was.MYA.Status == "assumed" && is.MYA.Status == "projected" {
			checked++
		}
	}
	if want := len(crop.Commodities()) - 3; checked != want { // corn, soybeans and wheat have a path
		t.Errorf("%d commodities took the price of the file, want %d", checked, want)
	}
	if left := carriedFlag(t, after[1]); left != "" {
		t.Errorf("with its own file the flag is still raised: %s", left)
	}
	own := filepath.Join(folder, "own.yaml")
	text := "format: fencerow/market/1\nas_of: 2026-11-20\nsource: invented\nunits: {peanuts: USD/ton}\noutlook: {peanuts: {2026: {price: 480}}}\n"
	if err := os.WriteFile(own, []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	if got := find(askPrices(t, operation, "--market", own)[0], "peanuts"); got.MYA.Mean != 0.24 || got.MYA.Status != "projected" {
		t.Errorf("peanuts at 480 USD/ton became %+v", got.MYA)
	}
}

func find(f pricedFarm, commodity string) priced {
	for _, c := range f.Commodities {
		if c.Commodity == commodity {
			return c
		}
	}
	return priced{}
}

// carriedFlag returns the message of the flag, "" where it is not raised.
func carriedFlag(t *testing.T, f pricedFarm) (message string) {
	t.Helper()
	for _, flag := range f.Flags {
		if flag.Code == "price_carried" {
			if flag.Severity != "warning" || message != "" {
				t.Errorf("severity %s, raised before: %q", flag.Severity, message)
			}
			message = flag.Message
		}
	}
	return message
}
