package report_test

import (
	"slices"
	"strings"
	"testing"
	"testing/fstest"
	"time"

	"fencerow/io/show/page"
	"fencerow/io/show/report"
	"fencerow/io/show/sheet"
	"fencerow/io/show/terminal"
	"fencerow/io/source"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
)

// third is an invented program that no renderer knows.
const third = "THIRD"

// withThird is an answer of invented figures for one farm in which a third program
// averages $1,234.56; of several crop years the last has it.
func withThird(t *testing.T, years ...crop.CropYear) answer.Comparison {
	t.Helper()
	found, err := source.Question(source.Request{Operation: "operation.yaml", CropYears: years, Today: time.Date(2026, 11, 25, 0, 0, 0, 0, time.UTC), Seed: 1, Draws: 256, Files: fstest.MapFS{
		"operation.yaml": {Data: []byte(`format: fencerow/operation/1
market_file: market.yaml
county_files: [county.yaml]
producers: [{id: operator}]
farms:
  - {farm: "0417", county: "99001", shares: {operator: 1}, bases: [{commodity: corn, base_acres: 100, payment_yield: 150}]}
`)},
		"market.yaml": {Data: []byte(`format: fencerow/market/1
as_of: 2026-11-10
source: invented
outlook: {corn: {2026: {price: 4.10, volatility: 0.2}, 2027: {price: 4.10, volatility: 0.2}}}
`)},
		"county.yaml": {Data: []byte(`format: fencerow/county/1
code: "99001"
name: Alder County
yields:
  - {commodity: corn, practice: all, adjusted: {2026: [180, 182, 184, 178, 181], 2027: [180, 182, 184, 178, 181]}, outlook: {2026: {yield: 180, known_from: local_harvest}, 2027: {yield: 180, known_from: before_harvest}}}
`)},
	}})
	if err != nil {
		t.Fatal(err)
	}
	c, err := compare.Answer(found.Question)
	if err != nil {
		t.Fatal(err)
	}
	part := &c.CropYears[len(c.CropYears)-1].Farms[0].Commodities[0]
	figures := *part.Programs.Of("PLC")
	figures.Mean, figures.Percentiles[1], figures.CostOfWrongElection = 1234.56, 1111.11, nil
	part.Programs = append(part.Programs, answer.OneProgram[answer.ProgramPart]{Program: third, Figures: &figures})
	return c
}

// A program more in the list of an answer is a column of the terminal's table, by its
// key, with every line of figures.
func TestThirdProgramIsAColumn(t *testing.T) {
	var out strings.Builder
	if err := terminal.Write(&out, report.OfComparison(withThird(t, 2026), false)); err != nil {
		t.Fatal(err)
	}
	for head, words := range map[string][]string{"Dollars per base acre": {"PLC", "ARC-CO", third}, "  average": {"$1,234.56"}, "poor case (1 in 10 is lower)": {"$1,111.11"}, "average given up": {"-"}} {
		if line := lineWith(out.String(), head, words); line == "" {
			t.Errorf("no line with %q and %q in\n%s", head, words, out.String())
		}
	}
}

// lineWith returns the first line, or two lines, that have all words after a head.
func lineWith(text, head string, words []string) string {
	lines := strings.Split(text, "\n")
	for i, line := range lines {
		if !strings.Contains(line, head) {
			continue
		}
		both := line + " " + lines[min(i+1, len(lines)-1)]
		all := true
		for _, word := range words {
			all = all && strings.Contains(both, word)
		}
		if all {
			return both
		}
	}
	return ""
}

// In the table of several crop years it is a column, "-" in a year that does not have it
// and in the sum, which is of PLC and ARC-CO alone.
func TestThirdProgramIsInTheTableOfYears(t *testing.T) {
	var table report.Table
	for _, block := range report.OfComparison(withThird(t, 2026, 2027), false).Blocks {
		if one, is := block.(report.Table); is && slices.Contains(one.Columns, "PLC") && one.Columns[0] == "crop year" {
			table = one
		}
	}
	if want := []string{"crop year", "PLC", "ARC-CO", third, "leans", "ahead by"}; !slices.Equal(table.Columns, want) {
		t.Fatalf("columns %q, want %q", table.Columns, want)
	}
	for i, want := range []string{"-", "$1,234.56", "-"} {
		if got := table.Rows[i]; got[3] != want || len(got) != len(table.Columns) {
			t.Errorf("line %q: %s under %s, want %s", got, got[3], third, want)
		}
	}
}

// On paper it has its column and its dots.
func TestThirdProgramIsOnThePage(t *testing.T) {
	var out strings.Builder
	if err := page.Write(&out, sheet.Of(withThird(t, 2026), false)); err != nil {
		t.Fatal(err)
	}
	if want := third + " averages $1,234.56"; !strings.Contains(out.String(), want) || strings.Contains(out.String(), "NaN") {
		t.Errorf("the page lacks %q, or has NaN", want)
	}
	if !strings.Contains(out.String(), `<th scope="col">`+third+"</th>") {
		t.Error("the table has no column for it")
	}
}
