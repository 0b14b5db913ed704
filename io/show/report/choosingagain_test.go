package report_test

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"fencerow/io/show/report"
	"fencerow/sim/answer"
	"fencerow/sim/compare"
	"fencerow/sim/invented/cases"
)

// What choosing again adds stands in a table of its own with a line for each year that has
// it. Where past years are drawn again a sentence says why
// there is none.
func TestWhatChoosingAgainAddsIsShown(t *testing.T) {
	c := cases.SixYears(0.15)
	c.Draws = 256
	all, err := compare.Answer(c)
	if err != nil {
		t.Fatal(err)
	}
	amount := func(d answer.Dollars) string { return strings.Replace(fmt.Sprintf("$%.2f", d), "$-", "-$", 1) }
	var tables []report.Table
	for _, block := range report.OfComparison(all, false).Blocks {
		if one, is := block.(report.Table); is && strings.Contains(one.Title, "choosing again") {
			tables = append(tables, one)
		}
	}
	if len(tables) != 1 || len(tables[0].Rows) != 5 {
		t.Fatalf("tables %+v", tables)
	}
	for i, line := range all.Together[0].Years[1:] {
		a := line.ChoosingAgain
		want := []string{fmt.Sprint(line.CropYear), amount(a.OneChoice), amount(a.Again), amount(a.Adds.Mean), amount(a.Adds.StandardError)}
		if got := tables[0].Rows[i]; !slices.Equal(got, want) {
			t.Errorf("line %q, want %q", got, want)
		}
	}
	c.Model = answer.PastHistory
	if all, err = compare.Answer(c); err != nil {
		t.Fatal(err)
	}
	if text := textOf(report.OfComparison(all, false)); !strings.Contains(text, "a replay has too few past years to choose on") || strings.Contains(text, "One choice") {
		t.Error("past years: nothing says why choosing again is left out")
	}
}

// textOf joins the paragraphs of a report.
func textOf(r report.Report) string {
	var all []string
	for _, block := range r.Blocks {
		if text, is := block.(report.Text); is {
			all = append(all, string(text))
		}
	}
	return strings.Join(all, "\n")
}
