package main

import (
	"encoding/csv"
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"github.com/xuri/excelize/v2"
)

// reductionCase is a file of testdata/derived/reductions: an operation whose PLC
// payments are known, and what each person is paid of them, worked by hand.
type reductionCase struct {
	path, year  string
	paid, batch map[string]float64 // by person; batch: from a table, which has no settings
}

var paidLine = regexp.MustCompile(`(?m)^# (paid|batch) (\S+) (\S+)`)

func readReductionCases(t *testing.T) (all []reductionCase) {
	t.Helper()
	paths, _ := filepath.Glob("../../testdata/derived/reductions/20*.yaml")
	if len(paths) == 0 {
		t.Fatal("no case found")
	}
	for _, path := range paths {
		text, err := os.ReadFile(path)
		if err != nil {
			t.Fatal(err)
		}
		c := reductionCase{path: path, year: filepath.Base(path)[:4], paid: map[string]float64{}, batch: map[string]float64{}}
		for _, m := range paidLine.FindAllStringSubmatch(string(text), -1) {
			into := c.paid
			if m[1] == "batch" {
				into = c.batch
			}
			if into[m[2]], err = strconv.ParseFloat(m[3], 64); err != nil {
				t.Fatal(path, err)
			}
		}
		if len(c.paid) == 0 {
			t.Fatalf("%s says of nobody what is paid", path)
		}
		all = append(all, c)
	}
	return all
}

// Sequestration and limit in the order of the crop year, shares before each member's
// own limit: explain, compare, workbook and batch pay each person what was worked out
// by hand, to the cent.
//
// Source: 7 U.S.C. 1308(c),(e)(3)(B),(f)(9); each file has its own derivation.
func TestOrderOfReductionsEverywhere(t *testing.T) {
	checked := 0
	for _, c := range readReductionCases(t) {
		for how, got := range map[string]map[string]float64{"explain": c.explained(t), "compare": c.compared(t), "workbook": c.inWorkbook(t)} {
			for id, want := range c.paid {
				checked++
				if math.Abs(got[id]-want) > 1e-9 {
					t.Errorf("%s: %s pays %s %v, want %v", filepath.Base(c.path), how, id, got[id], want)
				}
			}
		}
		if len(c.batch) == 0 {
			continue // a table has persons only
		}
		got := c.batched(t)
		for id, want := range c.batch {
			checked++
			if math.Abs(got[id]-want) > 1e-9 {
				t.Errorf("%s: batch pays %s %v, want %v", filepath.Base(c.path), id, got[id], want)
			}
		}
	}
	fmt.Printf("order of reductions: checked %d of %d payments\n", checked, checked)
}

// The steps print earned amounts without noise.
func TestExplainedAmountsAreClean(t *testing.T) {
	text := runs(t, "explain", "../../testdata/derived/reductions/2026-unequal-members.yaml", "--farm", "0417", "--commodity", "corn", "--crop-year", "2026", "--mya", "3.42", "--county-yield", "300", "--book", "none", "--today", demoToday)
	for _, want := range []string{`earned by a producer, share x payment: jv +500,000\.60 `, `earned, minus sequestration: jv +471,500\.5658 `, `paid after limit and sequestration: cal +47,150\.06 `} {
		if !regexp.MustCompile(want).MatchString(text) {
			t.Errorf("%s is not in %s", want, text)
		}
	}
}

// explained adds up the last steps of each commodity's explanation.
func (c reductionCase) explained(t *testing.T) map[string]float64 {
	t.Helper()
	text, _ := os.ReadFile(c.path)
	paid := map[string]float64{}
	for _, commodity := range []string{"corn", "peanuts"} {
		if !strings.Contains(string(text), "commodity: "+commodity) {
			continue
		}
		price := map[string]string{"corn2026": "3.42", "peanuts2026": "0.2650", "corn2018": "3.20", "corn2019": "3.20", "peanuts2018": "0.2175"}[commodity+c.year]
		var answer struct {
			Programs struct {
				PLC struct {
					People []struct {
						Name  string
						Value float64
					}
				}
			}
		}
		read(t, runs(t, "explain", c.path, "--farm", "0417", "--commodity", commodity, "--crop-year", c.year, "--mya", price, "--county-yield", "300", "--book", "none", "--today", demoToday, "--json"), &answer)
		for _, step := range answer.Programs.PLC.People {
			if id, is := strings.CutPrefix(step.Name, "paid_"); is {
				paid[id] += step.Value
			}
		}
	}
	return paid
}

func (c reductionCase) compared(t *testing.T) map[string]float64 {
	t.Helper()
	var answer struct {
		CropYears []struct {
			Operation struct {
				ByPerson []struct {
					ID             string  `json:"id"`
					MeanAfterLimit float64 `json:"mean_after_limit"`
				} `json:"by_person"`
			} `json:"operation"`
		} `json:"crop_years"`
	}
	read(t, runs(t, "compare", c.path, "--draws", "1024", "--book", "none", "--today", demoToday, "--json"), &answer)
	paid := map[string]float64{}
	for _, p := range answer.CropYears[0].Operation.ByPerson {
		paid[p.ID] = p.MeanAfterLimit
	}
	return paid
}

// inWorkbook finds the line of each person on the sheet Odds, whose fourth figure is the
// average after limit and sequestration.
func (c reductionCase) inWorkbook(t *testing.T) map[string]float64 {
	t.Helper()
	path := filepath.Join(t.TempDir(), "answer.xlsx")
	runs(t, "compare", c.path, "--draws", "1024", "--book", "none", "--today", demoToday, "--workbook", path)
	book, err := excelize.OpenFile(path)
	if err != nil {
		t.Fatal(err)
	}
	defer book.Close()
	paid := map[string]float64{}
	rows, _ := book.GetRows("Odds", excelize.Options{RawCellValue: true})
	for _, row := range rows {
		if len(row) < 4 {
			continue
		}
		if _, is := c.paid[row[0]]; is {
			paid[row[0]], _ = strconv.ParseFloat(row[3], 64)
		}
	}
	return paid
}

// batched answers the same bases from a table.
func (c reductionCase) batched(t *testing.T) map[string]float64 {
	t.Helper()
	source, _ := os.ReadFile(c.path)
	folder := t.TempDir()
	table := "operation,farm,county,commodity,crop_year,base_acres,payment_yield,producer,share\n"
	for _, m := range regexp.MustCompile(`commodity: (\w+), base_acres: ([0-9.]+), payment_yield: (\d+)`).FindAllStringSubmatch(string(source), -1) {
		table += fmt.Sprintf("one,0417,99001,%s,%s,%s,%s,ann,1\n", m[1], c.year, m[2], m[3])
	}
	path := filepath.Join(folder, "farms.csv")
	if err := os.WriteFile(path, []byte(table), 0o644); err != nil {
		t.Fatal(err)
	}
	beside := filepath.Dir(c.path)
	runs(t, "batch", path, "--out", filepath.Join(folder, "out"), "--draws", "1024", "--book", "none", "--today", demoToday,
		"--market", filepath.Join(beside, "market.yaml"), "--county-file", filepath.Join(beside, "county.yaml"))
	file, err := os.Open(filepath.Join(folder, "out", "people.csv"))
	if err != nil {
		t.Fatal(err)
	}
	defer file.Close()
	rows, err := csv.NewReader(file).ReadAll()
	if err != nil {
		t.Fatal(err)
	}
	paid := map[string]float64{}
	for _, row := range rows[1:] {
		for i, head := range rows[0] {
			if head == "mean_after_limit" {
				paid["ann"], _ = strconv.ParseFloat(row[i], 64)
			}
		}
	}
	return paid
}

// read decodes JSON.
func read(t *testing.T, text string, into any) {
	t.Helper()
	if err := json.Unmarshal([]byte(text), into); err != nil {
		t.Fatal(err)
	}
}
