package main

import (
	"encoding/json"
	"fmt"
	"math"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// comparison is what this test reads of the JSON.
type comparison struct {
	CropYears []struct {
		CropYear int `json:"crop_year"`
		Farms    []struct {
			Farm        string
			Commodities []struct {
				Commodity  string
				Difference struct {
					Mean    float64
					Lowest  float64 `json:"lowest_in_band"`
					Highest float64 `json:"highest_in_band"`
				}
				Neither   float64 `json:"chance_neither_pays"`
				ARC       float64 `json:"chance_arc_co_more"`
				PLC       float64 `json:"chance_plc_more"`
				Equal     float64 `json:"chance_equal"`
				Elsewhere []struct {
					Price, Yields, PLC float64
					ARC                float64 `json:"ARC-CO"`
				} `json:"payments_elsewhere"`
				Bases []struct {
					County, Practice string
					Guarantee        float64
				}
			}
		}
		Operation struct {
			ByPerson []person `json:"by_person"`
			Under    []struct {
				Elections string
				Mean      float64  `json:"mean_after_limit"`
				ByPerson  []person `json:"by_person"`
			}
		}
	} `json:"crop_years"`
}

// person is what reaches somebody after limits.
type person struct {
	ID          string
	Mean        float64            `json:"mean_after_limit"`
	Percentiles map[string]float64 `json:"percentiles_after_limit"`
}

const some = `(fewer than 1|\d+)`

var (
	spaces   = regexp.MustCompile(`\s+`)
	averages = regexp.MustCompile(`zeros included, (PLC|ARC-CO) is \$(\d+(?:\.\d\d)?) a base acre ahead`)
	ranges   = regexp.MustCompile(`that lead runs from \$(\d+(?:\.\d\d)?)( for PLC)? to \$(\d+(?:\.\d\d)?)( for ARC-CO)?`)
	outcomes = regexp.MustCompile(`(PLC|ARC-CO) pays more in ` + some + ` of 100 outcomes,(?: and)? (?:PLC|ARC-CO) in ` + some + `(?:, both the same in (?:fewer than 1|\d+))?(?:, and neither pays in ` + some + `)?`)
)

// told are the sentences of a text that hold its figures, in order.
func told(text string) (found []string) {
	text = spaces.ReplaceAllString(text, " ")
	for _, form := range []*regexp.Regexp{outcomes, averages, ranges} {
		for _, m := range form.FindAllStringSubmatch(text, -1) {
			found = append(found, strings.TrimSpace(strings.Join(m[1:], " ")))
		}
	}
	return found
}

// of is told for the JSON, worked out here by itself, from the first crop years on.
func (c comparison) told(years int) (found []string) {
	margin := func(d float64) string {
		if math.Abs(d) < 5 {
			return fmt.Sprintf("%.2f", math.Abs(d))
		}
		return fmt.Sprintf("%.0f", math.Abs(d))
	}
	var means, bands []string
	for _, y := range c.CropYears[:years] {
		for _, f := range y.Farms {
			for _, k := range f.Commodities {
				n := hundred(k.Neither, k.ARC, k.PLC, k.Equal)
				ahead := "ARC-CO " + n[1] + " " + n[2]
				if k.PLC > k.ARC {
					ahead = "PLC " + n[2] + " " + n[1]
				}
				if k.Neither > 0 {
					ahead += " " + n[0]
				}
				found = append(found, ahead)
				who := map[bool]string{true: "PLC ", false: "ARC-CO "}[k.Difference.Mean < 0]
				means = append(means, who+margin(k.Difference.Mean))
				low, high := k.Difference.Lowest, k.Difference.Highest
				end := margin
				if max(math.Abs(low), math.Abs(high)) >= 5 { // of a band with an end of $5 or more both are whole
					end = func(x float64) string { return fmt.Sprintf("%.0f", math.Abs(x)) }
				}
				switch {
				case low < 0 && high > 0:
					bands = append(bands, end(low)+"  for PLC "+end(high)+"  for ARC-CO")
				case high < 0:
					bands = append(bands, end(high)+"  "+end(low))
				default:
					bands = append(bands, end(low)+"  "+end(high))
				}
			}
		}
	}
	return slices.Concat(found, means, bands)
}

// hundred shares out 100 by largest remainder.
func hundred(shares ...float64) (words []string) {
	counts, order, left := make([]int, len(shares)), make([]int, len(shares)), 100
	for i, s := range shares {
		counts[i], order[i] = int(100*s), i
		left -= counts[i]
	}
	slices.SortStableFunc(order, func(a, b int) int {
		return int(math.Copysign(1, (100*shares[b]-math.Floor(100*shares[b]))-(100*shares[a]-math.Floor(100*shares[a]))))
	})
	for _, i := range order[:left] {
		counts[i]++
	}
	for i, n := range counts {
		word := strconv.Itoa(n)
		if n == 0 && shares[i] > 0 {
			word = "fewer than 1"
		}
		words = append(words, word)
	}
	return words
}

// Text, workbook and JSON of one question carry the same figures; the page too:
// TestPageShowsTheSame.
func TestFourShowTheSame(t *testing.T) {
	folder := t.TempDir()
	bookPath := filepath.Join(folder, "book.xlsx")
	text := runs(t, "compare", "--demo", "--full", "--workbook", bookPath)
	var c comparison
	if err := json.Unmarshal([]byte(runs(t, "compare", "--demo", "--json")), &c); err != nil {
		t.Fatal(err)
	}
	book, err := excelize.OpenFile(bookPath)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	const holdings = 6
	for name, have := range map[string]struct {
		found []string
		years int
	}{"text": {told(text), 2}} {
		want := c.told(have.years)
		if len(want) != 3*holdings*have.years || !slices.Equal(have.found, want) {
			t.Errorf("%s says\n%s\nJSON\n%s", name, strings.Join(have.found, "\n"), strings.Join(want, "\n"))
		}
	}
	for name, text := range map[string]string{"text": text, "workbook": wholeSheet(t, book, "Where farms stand")} {
		c.people(t, name, text)
		c.margins(t, name, text)
	}
	c.numbers(t, book)
	c.odds(t, book)
}

// odds: the odds of the workbook are numbers, those of the JSON.
func (c comparison) odds(t *testing.T, book *excelize.File) {
	t.Helper()
	rows, err := book.GetRows("Odds", excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	const fewest = 10
	var lines [][]string
	for _, row := range rows {
		if len(row) > fewest && regexp.MustCompile(`^20\d\d$`).MatchString(row[0]) {
			lines = append(lines, row)
		}
	}
	checked := 0
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			for _, k := range f.Commodities {
				if checked == len(lines) {
					t.Fatalf("the sheet Odds has %d lines", len(lines))
				}
				row := lines[checked]
				n := hundred(k.Neither, k.ARC, k.PLC, k.Equal)
				want := []string{fmt.Sprint(y.CropYear), n[1], n[2], n[0]}
				for i := range want {
					want[i] = strings.Replace(want[i], "fewer than 1", "0", 1)
				}
				if got := []string{row[0], row[7], row[8], row[9]}; !slices.Equal(got, want) {
					t.Errorf("%s %s of %d: the sheet Odds has %v, JSON %v", f.Farm, k.Commodity, y.CropYear, got, want)
				}
				for i, x := range []float64{k.Difference.Mean, k.Difference.Lowest, k.Difference.Highest} {
					if got, err := strconv.ParseFloat(row[10+i], 64); err != nil || math.Abs(got-x) > 0.005+1e-9 {
						t.Errorf("%s %s of %d: the sheet Odds has %s, JSON %v", f.Farm, k.Commodity, y.CropYear, row[10+i], x)
					}
				}
				checked++
			}
		}
	}
	if checked != len(lines) || checked == 0 {
		t.Errorf("checked %d of %d lines of the sheet Odds", checked, len(lines))
	}
	fmt.Printf("checked %d of %d lines of the sheet Odds against the JSON\n", checked, len(lines))
}

// margins: the margin of each crop stands in a text to the cent.
func (c comparison) margins(t *testing.T, name, text string) {
	t.Helper()
	for _, f := range c.CropYears[0].Farms {
		for _, k := range f.Commodities {
			if margin := fmt.Sprintf("$%.2f", math.Abs(k.Difference.Mean)); !strings.Contains(text, margin) {
				t.Errorf("%s lacks the margin %s of %s on %s", name, margin, k.Commodity, f.Farm)
			}
		}
	}
}

// people: what reaches each person stands in a text as in the JSON.
func (c comparison) people(t *testing.T, name, text string) {
	t.Helper()
	text = spaces.ReplaceAllString(text, " ")
	for _, y := range c.CropYears {
		for _, p := range y.Operation.ByPerson {
			if row := fmt.Sprintf("%s %s %s %s", p.ID, dollars(p.Percentiles["10"]), dollars(p.Percentiles["25"]), dollars(p.Mean)); !strings.Contains(text, row) {
				t.Errorf("%s lacks %q of crop year %d", name, row, y.CropYear)
			}
		}
	}
}

// numbers: the live cells of the workbook are the figures of the JSON.
func (c comparison) numbers(t *testing.T, book *excelize.File) {
	t.Helper()
	places := map[string][2]string{}
	for _, n := range book.GetDefinedName() {
		sheet, cell, _ := strings.Cut(n.RefersTo, "!")
		places[n.Name] = [2]string{strings.Trim(sheet, "'"), strings.ReplaceAll(cell, "$", "")}
	}
	checked := 0
	check := func(name string, want float64) {
		at, has := places[name]
		if !has {
			t.Fatalf("the workbook has no cell %s", name)
		}
		text, err := book.GetCellValue(at[0], at[1], excelize.Options{RawCellValue: true})
		got, bad := strconv.ParseFloat(text, 64)
		if err != nil || bad != nil || math.Abs(got-want) > 0.005 {
			t.Errorf("%s is %q, JSON has %v", name, text, want)
		}
		checked++
	}
	for _, y := range c.CropYears {
		for _, f := range y.Farms {
			for _, k := range f.Commodities {
				key := fmt.Sprintf("%s_%s_%d", strings.ReplaceAll(f.Farm, "-", "_"), k.Commodity, y.CropYear)
				for _, b := range k.Bases {
					check(fmt.Sprintf("guarantee_%s_%s_%s_%d", b.County, k.Commodity, b.Practice, y.CropYear), b.Guarantee)
				}
				middle := k.Elsewhere[len(k.Elsewhere)/2] // at the mean price and the mean yields
				check("plc_per_base_acre_"+key, middle.PLC)
				check("arc_co_per_base_acre_"+key, middle.ARC)
			}
		}
	}
	fmt.Printf("checked %d live cells of the demo's workbook against the JSON\n", checked)
}

// wholeSheet is the text of a sheet, row by row.
func wholeSheet(t *testing.T, book *excelize.File, sheet string) string {
	t.Helper()
	rows, err := book.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	var lines []string
	for _, row := range rows {
		lines = append(lines, strings.Join(row, " "))
	}
	return strings.Join(lines, "\n")
}
