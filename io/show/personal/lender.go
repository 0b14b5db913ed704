package personal

import (
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// OfLender is the sheet for a lender: what each person earns and is paid, October by
// October, as last elected and as the figures lean, poor cases beside the average. With
// ARC-IC it has the choices that hold it too, where the answer has any.
func OfLender(found answer.Comparison, withARCIC bool) report.Report {
	c := &found
	people := peopleOf(c)
	var out report.Report
	out.Blocks = append(out.Blocks, report.Heading{Level: 1, Text: "For a lender: PLC and ARC-CO payments for " + yearsOf(c) + " crops"})
	var said []string
	for _, id := range people {
		said = append(said, averages(c, id))
	}
	if len(people) == 0 {
		said = append(said, "What people are paid is not known here: figures are missing.")
	}
	said = append(said, leansOtherwise(c)...)
	out.Blocks = append(out.Blocks, points(said))
	note := tableNote(c)
	for _, id := range people {
		table := octobers(c, id, withARCIC)
		out.Blocks = append(out.Blocks, table)
		if slices.ContainsFunc(table.Rows, func(row []string) bool { return slices.Contains(row, nothing) }) && !strings.HasSuffix(note, nothingIs) {
			note += nothingIs
		}
	}
	if len(people) > 0 {
		out.Blocks = append(out.Blocks, report.Small(note))
	}
	left := slices.Concat(part("When and if", whenAndIf(c)), part("Not included", notIncluded(c, withARCIC)))
	right := slices.Concat(part("What it depends on", depends(c, people, withARCIC)), part("Not yet certain", uncertain(everyReader(c, people))))
	out.Blocks = append(out.Blocks, report.Beside{Left: left, Right: right})
	return withEnd(out, c, report.Text("The average is not money to count on, and nothing here is a commitment by USDA."))
}

// peopleOf are all who are paid in some crop year, in the order of the answer.
func peopleOf(c *answer.Comparison) (ids []string) {
	seen := map[string]bool{}
	for at := range c.CropYears {
		y := &c.CropYears[at]
		for _, u := range y.Operation.Under {
			for _, p := range u.ByPerson {
				if !seen[p.ID] && readerOf(c, p.ID, at).paid() {
					ids, seen[p.ID] = append(ids, p.ID), true
				}
			}
		}
	}
	return ids
}

// points are the sentences that are not empty, as a list.
func points(said []string) report.List {
	var all report.List
	for _, text := range said {
		if text != "" {
			all = append(all, report.Point{Text: text})
		}
	}
	return all
}

// yearsOf lists the crop years of an answer: "2025, 2026 and 2027".
func yearsOf(c *answer.Comparison) string {
	var years []string
	for at := range c.CropYears {
		y := &c.CropYears[at]
		years = append(years, fmt.Sprint(y.CropYear))
	}
	return wording.Joined(years)
}

// octobers is the table of one person.
func octobers(c *answer.Comparison, id string, withARCIC bool) report.Grid {
	t := report.Grid{
		Title: []string{wording.Capital(called(id)) + ": dollars on average, and in poor cases"},
		Columns: []report.Column{{Head: "paid from (crop year)", Left: true, Wraps: true}, {Head: "earned"}, {Head: "withheld"}, {Head: "paid"},
			{Head: "1 in 4 pay\nless than"}, {Head: "1 in 10 pay\nless than"}},
	}
	for at := range c.CropYears {
		r := readerOf(c, id, at)
		last, leads := r.under(answer.LastElected), r.under(answer.AsItLeans)
		switch {
		case last == nil && leads == nil:
			t.Rows = append(t.Rows, r.row("figures are missing", nil))
		case higherOfBoth(r.year):
			t.Rows = append(t.Rows, r.row("higher program", leads))
		case r.alike():
			t.Rows = append(t.Rows, r.row("either way", leads))
		default:
			t.Rows = append(t.Rows, r.row("as last elected"+r.unconfirmed(), last), r.row("as it leans", leads))
		}
		if typed := r.under(answer.TypedChoice); typed != nil {
			t.Rows = append(t.Rows, r.row("as typed here", typed))
		}
		if farms := inARCIC(r.year); withARCIC && len(farms) > 0 {
			t.Rows = append(t.Rows, r.row("with ARC-IC on "+onlyFarms(farms)+", not confirmed", r.highest()))
		}
	}
	return t
}

// unconfirmed marks amounts as last elected that hold an ARC-IC figure.
func (r *reader) unconfirmed() string {
	if r.individual() == "" {
		return ""
	}
	return ", ARC-IC included (not confirmed)"
}

// row is one line of the table; p is nil where figures are missing.
func (r *reader) row(elected string, p *answer.PersonPart) []string {
	name := fmt.Sprintf("(%d) %s", r.year.CropYear, elected)
	if day, err := time.Parse(time.DateOnly, firstDay(r.year)); err == nil {
		name = day.Format("Jan 2006") + " " + name
	}
	if p == nil {
		return []string{name, "unknown", "unknown", "unknown", "unknown", "unknown"}
	}
	earned, paid := dollars(p.Mean), dollars(p.MeanAfterLimit)
	withheld := earned - paid // of whole dollars, so that a reader's sum comes to the same
	return []string{name, wording.Whole(&earned), wording.Whole(&withheld), wording.Whole(&paid), low(p, answer.Quarter), low(p, answer.Tenth)}
}

// dollars rounds an amount to the dollar.
func dollars(d answer.Dollars) answer.Dollars { return answer.Dollars(program.Round(float64(d), 0)) }

// nothing is written for an amount below which nothing lies, as nothingIs says.
const nothing, nothingIs = "nothing", " Where it says nothing, at least that part of the outcomes pays nothing."

// low writes what a part of the outcomes pays less than: "nothing" where it pays nothing.
func low(p *answer.PersonPart, at int) string {
	switch d := answer.Dollars(p.Percentiles[at]); {
	case math.IsNaN(float64(d)):
		return "unknown"
	case d < program.HalfCent:
		return nothing
	default:
		return wording.Whole(&d)
	}
}

// highest is what the person is paid under the choices with the highest average.
func (r *reader) highest() *answer.PersonPart {
	for i := range r.year.Operation.ByPerson {
		if p := &r.year.Operation.ByPerson[i]; p.ID == r.id {
			return p
		}
	}
	return nil
}

// LenderYears are the crop years that a lender reads where none are asked for: of the last
// harvest, of the year of the question and of the next.
func LenderYears(today time.Time) []crop.CropYear {
	return []crop.CropYear{today.Year() - 1, today.Year(), today.Year() + 1}
}
