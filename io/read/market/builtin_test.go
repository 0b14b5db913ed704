package market

import (
	"strings"
	"testing"

	"fencerow/program/crop"
)

// Prices that readers of the program will look up first, as the agencies print
// them.
func TestBuiltin(t *testing.T) {
	m := Builtin()
	if m.AsOf != day(2026, 9, 11) || m.Source != "WASDE-675, USDA Office of the Chief Economist, 11 September 2026" {
		t.Errorf("as of %v, source %q", m.AsOf, m.Source)
	}
	for _, c := range []struct {
		why    string
		c      crop.Commodity
		year   crop.CropYear
		price  float64
		status crop.Status
	}{
		{"NASS and WASDE print the same final price", crop.Corn, 2024, 4.24, crop.Agency},
		{"FSA's price; 56 percent of the price by hundredweight would be 6.38", crop.GrainSorghum, 2022, 5.94, crop.Agency},
		{"the marketing year ended in May 2026", crop.Wheat, 2025, 5.06, crop.Agency},
		{"the season-end price of corn is not out in September", crop.Corn, 2025, 4.15, crop.Projected},
		{"WASDE prints 13.50 USD/cwt", crop.LongGrainRice, 2026, 0.135, crop.Projected},
		{"FSA's projection of April 2025, never seen final", crop.SeedCotton, 2024, 0.3361, crop.Projected},
	} {
		got, ok := m.Price(c.c, c.year)
		if !ok || got.Value != c.price || got.Status != c.status || got.Source == "" {
			t.Errorf("%s: %s %d is %+v, want %v %s", c.why, c.c, c.year, got, c.price, c.status)
		}
	}
	for _, c := range []crop.Commodity{crop.SeedCotton, crop.MediumGrainRice, crop.Peanuts, crop.Canola} {
		if got, ok := m.Price(c, 2026); ok {
			t.Errorf("%s 2026 is %+v; no opened document projects it", c, got)
		}
	}
	m.MYA[crop.Corn][2024] = m.MYA[crop.Corn][2023]
	if Builtin().MYA[crop.Corn][2024].Value != 4.24 {
		t.Error("a change to one built-in market shows in another")
	}
}

// The effective reference price and the ARC-CO benchmark of crop year 2026 need
// the prices of 2020 to 2024 of every commodity; those of 2025 and 2014 need
// the earlier ones.
func TestBuiltinHasEveryYear(t *testing.T) {
	m := Builtin()
	for _, c := range crop.Commodities() {
		first := 2009
		if c == crop.SeedCotton {
			first = 2013 // covered from crop year 2018 on
		}
		for year := first; year <= 2024; year++ {
			if _, ok := m.Price(c, year); !ok {
				t.Errorf("%s %d has no price", c, year)
			}
		}
	}
}

// A damaged table is refused with its row, never read by half.
func TestBuiltinRefusals(t *testing.T) {
	row := "corn,2024,4.24,USD/bu,agency,WASDE-675,2026-09-11,\n"
	for what, text := range map[string]string{
		"twice":          row + row,
		"unit":           strings.Replace(row, "USD/bu", "USD/lb", 1),
		"status":         strings.Replace(row, "agency", "assumed", 1),
		"source":         strings.Replace(row, "WASDE-675", "WASDE-1", 1),
		"unit suspect":   strings.Replace(row, "4.24", "424", 1),
		"commodity":      strings.Replace(row, "corn", "maize", 1),
		"date":           strings.Replace(row, "2026-09-11", "11 Sep", 1),
		"number":         strings.Replace(row, "4.24", "n/a", 1),
		"missing column": "corn,2024,4.24\n",
	} {
		if _, err := parseBuiltin(builtinHeader+"\n"+text, sourceFile); err == nil {
			t.Errorf("%s: %q is read", what, text)
		}
	}
	if _, err := parseBuiltin(builtinHeader+"\n"+row, sourceFile); err != nil {
		t.Errorf("the undamaged row: %v", err)
	}
}
