package main

import (
	"encoding/json"
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"unicode/utf8"
)

// answeredYears is what these tests read of the JSON.
type answeredYears struct {
	CropYears []struct {
		CropYear int `json:"crop_year"`
		Farms    []struct {
			Farm        string
			Commodities []struct {
				Commodity  string
				BaseAcres  float64 `json:"base_acres"`
				Leader     string
				Leans      string
				OnRecord   string `json:"election_on_record"`
				Difference struct {
					Mean    float64
					Lowest  float64 `json:"lowest_in_band"`
					Highest float64 `json:"highest_in_band"`
				}
				Neither  float64 `json:"chance_neither_pays"`
				ARC      float64 `json:"chance_arc_co_more"`
				PLC      float64 `json:"chance_plc_more"`
				Equal    float64 `json:"chance_equal"`
				Programs map[string]struct {
					Mean, Maximum float64
					Percentiles   map[string]float64
				}
			}
			Elections []struct {
				Mean       float64
				AfterLimit float64 `json:"mean_after_limit"`
			}
		}
		Operation struct {
			Under []struct {
				Elections   string
				Mean        float64            `json:"mean_after_limit"`
				Percentiles map[string]float64 `json:"percentiles_after_limit"`
			}
		}
	} `json:"crop_years"`
}

func demoAnswer(t *testing.T, more ...string) (c answeredYears) {
	t.Helper()
	if err := json.Unmarshal([]byte(runs(t, append([]string{"compare", "--demo", "--json"}, more...)...)), &c); err != nil {
		t.Fatal(err)
	}
	return c
}

// dollarsOf writes whole dollars with thousands commas, cents below $5.
func dollarsOf(x float64) string {
	sign := ""
	if x < 0 {
		sign, x = "-", -x
	}
	if x < 5 {
		return fmt.Sprintf("%s$%.2f", sign, x)
	}
	return sign + wholeDollars(x)
}

func wholeDollars(x float64) string {
	n := fmt.Sprintf("%.0f", math.Floor(x+0.5))
	if len(n) > 3 {
		n = n[:len(n)-3] + "," + n[len(n)-3:]
	}
	return "$" + n
}

// The answer for one crop year of three farms with two crops each fills one screen.
func TestAnswerFitsTheScreen(t *testing.T) {
	for _, c := range []struct {
		args []string
		most int
	}{
		{[]string{"--crop-year", "2026"}, 30}, {nil, 40}, {[]string{"--crop-year", "2026", "--farm", "0417"}, 60},
		{[]string{"--crop-year", "2026", "--farm", "0588"}, 60}, {[]string{"--crop-year", "2026", "--farm", "99003-1203"}, 60},
		{[]string{"--farm", "0417"}, 120}, {[]string{"--crop-year", "2026,2027,2028,2029,2030", "--draws", "1024"}, 70},
	} {
		text := runs(t, append([]string{"compare", "--demo"}, c.args...)...)
		lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
		if len(lines) > c.most {
			t.Errorf("%v: %d lines, want at most %d:\n%s", c.args, len(lines), c.most, text)
		}
		for _, line := range lines {
			if utf8.RuneCountInString(line) > 80 {
				t.Errorf("%v: over 80 columns: %s", c.args, line)
			}
		}
	}
}

// Each line of the answer has the figures of the JSON, worked out here anew, in its order:
// odds that add to 100, then the margin, its range, and the last election.
func TestAnswerHasTheFiguresOfTheJSON(t *testing.T) {
	c := demoAnswer(t, "--crop-year", "2026")
	text := runs(t, "compare", "--demo", "--crop-year", "2026")
	flat := spaces.ReplaceAllString(text, " ")
	for _, f := range c.CropYears[0].Farms {
		_, number, _ := strings.Cut(f.Farm, "-")
		for _, k := range f.Commodities {
			n := hundred(k.ARC, k.PLC, k.Neither, k.Equal)
			low, high := k.Difference.Lowest, k.Difference.Highest
			if k.Leans == "PLC" {
				low, high = -high, -low
			}
			row := fmt.Sprintf("%s %s %.0f %s %s %s %s %s %s to %s %s", number, k.Commodity, k.BaseAcres, n[0], n[1], n[2], k.Leader,
				dollarsOf(math.Abs(k.Difference.Mean)), wholeDollars(low), wholeDollars(high), k.OnRecord)
			if row = strings.ReplaceAll(row, "fewer than 1", "<1"); !strings.Contains(flat, row) {
				t.Errorf("the answer lacks %q:\n%s", row, text)
			}
		}
	}
	sums := map[string]string{"last_elected": "As last elected: %s on average, poor case %s (1 in 10 is lower).", "leads": "As each line leans: %s, poor %s."}
	for _, u := range c.CropYears[0].Operation.Under {
		said := fmt.Sprintf(sums[u.Elections], wholeDollars(u.Mean), wholeDollars(u.Percentiles["10"]))
		if delete(sums, u.Elections); !strings.Contains(flat, said) {
			t.Errorf("the answer lacks %q (%s):\n%s", said, u.Elections, text)
		}
	}
	if len(sums) > 0 {
		t.Errorf("not looked at: %v", sums)
	}
}

// One farm in full has the figures of the JSON too.
func TestFarmHasTheFiguresOfTheJSON(t *testing.T) {
	c := demoAnswer(t, "--crop-year", "2026")
	checked := 0
	for _, f := range c.CropYears[0].Farms {
		flat := spaces.ReplaceAllString(runs(t, "compare", "--demo", "--crop-year", "2026", "--farm", f.Farm), " ")
		var means, most, poor string
		for _, k := range f.Commodities {
			for _, program := range []string{"PLC", "ARC-CO"} {
				p := k.Programs[program]
				means += fmt.Sprintf(" $%.2f", p.Mean)
				most += fmt.Sprintf(" $%.2f", p.Maximum)
				poor += fmt.Sprintf(" $%.2f", p.Percentiles["10"])
			}
			margin := fmt.Sprintf("%s is %s a base acre ahead, or %s in all.", k.Leans, dollarsOf(math.Abs(k.Difference.Mean)), wholeDollars(math.Abs(k.Difference.Mean*k.BaseAcres)))
			if !strings.Contains(flat, margin) {
				t.Errorf("farm %s lacks %q", f.Farm, margin)
			}
		}
		wanted := []string{"on average" + means, "the most it can pay" + most, "poor case (1 in 10 is lower)" + poor}
		for _, e := range f.Elections {
			wanted = append(wanted, wholeDollars(e.Mean), wholeDollars(e.AfterLimit))
		}
		for _, want := range wanted {
			if checked++; !strings.Contains(flat, want) {
				t.Errorf("farm %s lacks %q:\n%s", f.Farm, want, flat)
			}
		}
	}
	if checked < 20 {
		t.Errorf("only %d figures were checked", checked)
	}
}

// The output of the program for many farms ends with what to know, not with the table.
func TestManyFarmsEndWithTheAnswer(t *testing.T) {
	table := "farm,county,crop,base,plc yield,elected\n"
	for n := range 20 {
		table += fmt.Sprintf("%d,99001,corn,120,150,PLC\n", 100+n)
	}
	path := filepath.Join(t.TempDir(), "farms.csv")
	if err := os.WriteFile(path, []byte(table), 0o600); err != nil {
		t.Fatal(err)
	}
	text := runs(t, "compare", path, "--county-table", countyWorkbook(t), "--book", "none", "--today", demoToday, "--crop-year", "2026", "--draws", "256")
	lines := strings.Split(strings.TrimRight(text, "\n"), "\n")
	last := strings.Join(lines[len(lines)-20:], "\n")
	for _, want := range []string{"All farms, after shares", "To be paid for 2026", "The sign-up deadline was not", "One farm in full: --farm 100.", "Made November 25, 2026 "} {
		if !strings.Contains(last, want) {
			t.Errorf("the last 20 lines lack %q:\n%s", want, last)
		}
	}
	if !strings.Contains(text, "\n119") {
		t.Errorf("the table does not go on:\n%s", text)
	}
}
