package main

import (
	"encoding/json"
	"fmt"
	"html"
	"math"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// fifteenCounties are counties whose corn, soybeans, wheat and grain sorghum each have one
// yield in the built-in tables: 60 sheets.
var fifteenCounties = []string{
	"19015", "19127", "19153", "19197", "19017", "19023", "19043", "19061", "19069", "19073", "19079", "19081", "19099", "19125", "19187",
}

// handoutJSON is what the tests read of handout --json.
type handoutJSON struct {
	Comparison struct {
		CropYears []struct {
			Farms []struct {
				Farm        string
				Commodities []struct {
					Difference struct{ Mean float64 }
					Neither    float64  `json:"chance_neither_pays"`
					ARC        float64  `json:"chance_arc_co_more"`
					PLC        float64  `json:"chance_plc_more"`
					Equal      float64  `json:"chance_equal"`
					Even       *float64 `json:"even_payment_yield"`
					Leader     string
				}
			}
		} `json:"crop_years"`
	}
	Sheets []struct {
		Sheet        int
		Farm         string
		State        string
		CountyName   string `json:"county_name"`
		Commodity    string
		PaymentYield float64 `json:"payment_yield"`
		Flags        []struct{ Code, Message string }
	}
	Missing []string
}

// madeHandout makes county sheets in a folder of the test and returns it, with the JSON and
// the talk of the same run.
func madeHandout(t *testing.T, args ...string) (folder string, h handoutJSON, talk string) {
	t.Helper()
	folder = filepath.Join(t.TempDir(), "sheets")
	out, talk := talks(t, exitDone, append([]string{"handout", "--json", "--book", "none", "--out", folder}, args...)...)
	if err := json.Unmarshal([]byte(out), &h); err != nil {
		t.Fatal(err)
	}
	return folder, h, talk
}

// manyHandout is the handout of fifteenCounties.
func manyHandout(t *testing.T) (page string, h handoutJSON) {
	args := append([]string{"--commodity", "corn,soybeans,wheat,grain_sorghum", "--today", demoToday, "--draws", "1024"}, fifteenCounties...)
	folder, h, _ := madeHandout(t, args...)
	return filepath.Join(folder, handoutPage), h
}

// The cover has a line for each sheet with the figures of the JSON of the same run, worked
// out here anew, under its county, and each sheet bears the number of its line.
func TestCoverShowsTheSheets(t *testing.T) {
	demo, _ := filepath.Abs("demo")
	folder, small, _ := madeHandout(t, filepath.Join(demo, "birch.yaml"), filepath.Join(demo, "alder.yaml"), "--market", filepath.Join(demo, "market.yaml"), "--today", demoToday)
	many, large := manyHandout(t)
	for page, h := range map[string]handoutJSON{filepath.Join(folder, handoutPage): small, many: large} {
		source := fileText(t, page)
		cover, _, _ := strings.Cut(source, "</section>")
		rows := rowsOf(cover)
		last := 0
		for i, s := range h.Sheets {
			part := h.Comparison.CropYears[0].Farms[i].Commodities[0]
			n := hundred(part.Neither, part.ARC, part.PLC, part.Equal)
			short := func(s string) string { return strings.Replace(s, "fewer than ", "<", 1) }
			leans := map[string]string{"close": "toss-up", "little_chance": "little at stake"}[part.Leader]
			if leans == "" {
				leans = part.Leader
			}
			ahead := "ARC-CO"
			if part.Difference.Mean < 0 {
				ahead = "PLC"
			}
			even := "none in use"
			if benchmark := s.PaymentYield / 0.8; part.Even != nil && *part.Even >= 0.4*benchmark && *part.Even <= 1.4*benchmark {
				even = dollars(*part.Even)[1:]
			}
			want := fmt.Sprintf("%s|%s|%s|%s|%s $%.2f|%s|%d", leans, short(n[1]), short(n[2]), short(n[0]), ahead, math.Abs(part.Difference.Mean), even, s.Sheet)
			at := slices.IndexFunc(rows, func(row string) bool { return strings.HasSuffix(row, "|"+want) })
			if at <= last && i > 0 || at < 0 {
				t.Errorf("%s, sheet %d: no line %q in its place", s.Farm, s.Sheet, want)
				continue
			}
			last = at
			group := slices.IndexFunc(rows, func(row string) bool { return row == s.CountyName || row == s.CountyName+" County" })
			if group < 0 || group > at {
				t.Errorf("%s stands under no heading of %s", s.Farm, s.CountyName)
			}
			if heading := fmt.Sprintf(`(?s)<section[^>]* id="sheet-%d"[^>]*>\s*<h2>[^<]*%s[^<]*</h2>\s*<p class="corner">Sheet %d of %d</p>.*?%s`, s.Sheet, s.CountyName, s.Sheet, len(h.Sheets), regexp.QuoteMeta("of 100 outcomes")); !regexp.MustCompile(heading).MatchString(source) {
				t.Errorf("sheet %d is not of %s", s.Sheet, s.CountyName)
			}
		}
		fmt.Printf("lines of the cover beside the JSON: checked %d\n", len(h.Sheets))
	}
	if len(large.Sheets) != 60 {
		t.Errorf("%d sheets of 15 counties and 4 crops", len(large.Sheets))
	}
}

// rowsOf are the rows of the tables of a page, cells parted by bars.
func rowsOf(page string) (rows []string) {
	for _, m := range regexp.MustCompile(`(?s)<tr[^>]*>(.*?)</tr>`).FindAllStringSubmatch(page, -1) {
		row := regexp.MustCompile(`</t[hd]>`).ReplaceAllString(m[1], "|")
		rows = append(rows, strings.TrimSuffix(html.UnescapeString(regexp.MustCompile(`<[^>]*>`).ReplaceAllString(row, "")), "|"))
	}
	return rows
}

// ofTheMaker is what only those who make sheets have a use for: flags, commands, files,
// keys of files, codes, addresses, and what to fetch or enter.
var ofTheMaker = regexp.MustCompile(`--[a-z]|\bfencerow |\.(csv|xlsx|yaml|html|txt|db|json)\b|(?i)\bimport|\bstale\b|\b(market|county) file\b|\bbuilt in\b|\b[a-z]+_[a-z_]+\b|https?://|\bwarning:|\binfo:|\(\d{5}\)|\bdays old\b|\bthen run\b|\bsettings\b|\bcounty table\b`)

// noisyHandout is a handout that raises every note that concerns its maker alone.
func noisyHandout(t *testing.T) (folder string, h handoutJSON, talk string) {
	files := t.TempDir()
	grown := writeText(t, filepath.Join(files, "gone.yaml"), `format: fencerow/county/1
code: "99005"
name: Gone County
yields:
  - commodity: corn
    adjusted: {2026: [84.20, 87.00, 93.10, 78.43, 90.70]}
    history: {2010: 152, 2011: 150, 2012: 158, 2013: 159, 2014: 174, 2015: 169, 2016: 181, 2017: 180, 2018: 183, 2019: 166, 2020: 173, 2021: 178, 2022: 185, 2023: 193, 2024: 187, 2025: 190}
  - commodity: crambe
    adjusted: {2026: [1200, 1250, 1300, 1350, 1400]}
`)
	market := writeText(t, filepath.Join(files, "market.yaml"), `format: fencerow/market/1
as_of: 2026-08-03
source: "invented for a test"
outlook: {corn: {2026: {price: 4.55}}, wheat: {2026: {price: 5.35}}, soybeans: {2026: {price: 10.60}}}
correlation: {corn: {soybeans: 0.35}}
`)
	return madeHandout(t, grown, "99001", "19169", "--county-table", countyWorkbookOf(t, 187.30, "Moon phase"), "--market", market, "--commodity", "corn,crambe,wheat", "--today", "2026-12-10", "--draws", "1024")
}

// Nothing that concerns the maker alone stands on paper; it is in the notes, with what to
// do, and in a short line of talk. Each note is raised here by an invented case.
func TestNothingOfTheMakerOnPaper(t *testing.T) {
	folder, h, talk := noisyHandout(t)
	raised := map[string]string{}
	for _, s := range h.Sheets {
		for _, flag := range s.Flags {
			raised[flag.Code] = flag.Message
		}
	}
	notes := spaces.ReplaceAllString(fileText(t, filepath.Join(folder, handoutNotes)), " ")
	for code, head := range map[string]string{
		"market_stale": "Prices that are old", "county_stale": "Benchmark yields that are not FSA's", "yield_not_known": "No report on this year's county yields",
		"yield_out_of_line": "Past yields that do not fit the benchmark", "price_carried": "Prices carried forward", "correlation_repaired": "Price correlations that were changed",
	} {
		switch {
		case !ofTheMaker.MatchString(raised[code]):
			t.Errorf("%s is not raised, or none of its words would be found: %q", code, raised[code])
		case !strings.Contains(notes, head):
			t.Errorf("the notes have no %q", head)
		case !strings.Contains(talk, "fencerow: note: "+head+": "):
			t.Errorf("the talk has no %q: %s", head, talk)
		}
	}
	for _, want := range []string{"Moon phase", "Gone County (99005), wheat: no source has a yield of it", "What to do: Import FSA's county table (fencerow county import FILE)", "fencerow market import", "fencerow county import", "known_from: state_report", "Past years without FSA's county yields"} {
		if !strings.Contains(notes, want) {
			t.Errorf("the notes lack %q:\n%s", want, notes)
		}
	}
	page := filepath.Join(folder, handoutPage)
	body := shownBody(t, page)
	if found := ofTheMaker.FindAllString(body, -1); len(found) > 0 {
		t.Errorf("on paper stands %q", found)
	}
	if aloud := regexp.MustCompile(`aria-label="[^"]*"`).FindAllString(fileText(t, page), -1); ofTheMaker.MatchString(strings.Join(aloud, " ")) {
		t.Errorf("read aloud is %q", ofTheMaker.FindString(strings.Join(aloud, " ")))
	}
	// What a reader has to know to trust a figure does stand there.
	for _, want := range []string{"prices of August 3, 2026 (seed 1, 1,024 draws)", "(projected)", "(assumed)", "not confirmed", "No report on this year's county yield is in these odds.", "They are too far apart",
		"The benchmark yield is not FSA's own figure for this year.", "the last one is carried forward", "Not in these sheets, because a figure is missing: wheat in Alder County and Gone County", "not advice on what to elect"} {
		if !strings.Contains(body, want) {
			t.Errorf("paper lacks %q", want)
		}
	}
	if lines := strings.Split(strings.TrimSpace(talk), "\n"); slices.ContainsFunc(lines, func(l string) bool { return len(l) > 200 }) {
		t.Errorf("a line of talk is long: %s", talk)
	}
}

// shownBody is what a page shows, without its styles.
func shownBody(t *testing.T, page string) string {
	_, body, _ := strings.Cut(fileText(t, page), "</style>")
	return shownText(t, writeText(t, filepath.Join(t.TempDir(), "body.html"), body))
}

// With nothing to note the file says so, and what an earlier run noted is gone.
func TestNotesOfAnEarlierRun(t *testing.T) {
	folder := t.TempDir()
	old := writeText(t, filepath.Join(folder, handoutNotes), "old\n")
	talks(t, exitDone, "handout", "99001", "--county-table", countyWorkbookOf(t, 187.30), "--commodity", "corn", "--market", "demo/market.yaml", "--book", "none", "--today", "2026-11-12", "--draws", "256", "--out", folder, "--force")
	if text := fileText(t, old); strings.Contains(text, "old\n") || !strings.Contains(text, "There is nothing to note.") {
		t.Error(text)
	}
	if _, err := os.Stat(filepath.Join(folder, handoutPage)); err != nil {
		t.Error(err)
	}
}
