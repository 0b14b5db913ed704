package summary

import (
	"fmt"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// Of lays out the whole operation: a line for each farm and crop of the first crop year, a
// short table of the later ones, then what they add up to, what to know before the county
// office, and what is not certain. The answer stands where the terminal stops. changesOnly is that of lineGrid.
func Of(c answer.Comparison, changesOnly bool) report.Report {
	var r report.Report
	first, now := c.CropYears[0], deciding(c)
	lines := lineGrid(first, changesOnly)
	lines.Title = []string{title(c), decides}
	r.Add(lines)
	r.Add(laterGrids(c)...)
	var said report.Lines
	said = append(said, oddsAsked(c)...)
	said = append(said, unknownLines(first)...)
	said = append(said, stops(now)...)
	said = append(said, flagged(first, higherOf)...)
	said = append(said, tossUps(first)...)
	said = append(said, limitedLines(first)...)
	for i, y := range c.CropYears {
		said = append(said, totals(y, i == 0, len(c.CropYears) > 1)...)
	}
	said = append(said, toBePaid(deciding(c), c.Today)...)
	said = append(said, doubts(now)...)
	said = append(said, individual(now)...)
	said = append(said, otherFlags(now)...)
	r.Add(append(said, caution, hint(first), run(c, " Prices: "+c.Market.Source+".")))
	return r
}

// deciding is the first crop year whose sign-up is not over, else the first.
func deciding(c answer.Comparison) answer.YearPart {
	for _, y := range c.CropYears {
		if !signUpOver(y, c.Today) {
			return y
		}
	}
	return c.CropYears[0]
}

// signUpOver reports whether the last day of a year's sign-up is known and past; today is
// YYYY-MM-DD.
func signUpOver(y answer.YearPart, today string) bool {
	day := y.Standing.LastDay
	return day != "" && day != "unknown" && day < today
}

// caution is what every answer on a terminal ends with, in two lines.
const caution = "Estimates of a model: not a promise, and not advice on what to elect. Only the Farm Service Agency decides who is eligible and what is paid."

// decides says in one line what each program pays on.
const decides = "PLC pays on a low national price, ARC-CO on a low county yield times that price."

// title says what is compared, and of what day the prices are.
func title(c answer.Comparison) string {
	return fmt.Sprintf("PLC or ARC-CO for crop year %d. Prices of %s.", c.CropYears[0].CropYear, wording.Date(c.Market.AsOf))
}

// oddsAsked says what else than the usual odds was asked for.
func oddsAsked(c answer.Comparison) (said report.Lines) {
	if c.Model.Note != "" {
		said = append(said, "These odds are "+c.Model.Note+".")
	}
	if c.CropYears[0].Farms[0].Criteria != nil {
		said = append(said, "The choices beside the crop revenue (--criterion) are in the full report: add --full.")
	}
	return said
}

// hint says how to see more; its farm is the first of the answer.
func hint(y answer.YearPart) string {
	return fmt.Sprintf("One farm in full: --farm %s. Everything: --full. Words: fencerow help words", wording.Farm(y.Farms[0].Farm, y.Farms))
}

// run says when and how the figures were made; prices says from which prices.
func run(c answer.Comparison, prices string) string {
	made := fmt.Sprintf("Made %s.%s (seed %d, %s draws", wording.Date(c.Today), prices, c.Seed, wording.Grouped(float64(c.Draws), 0))
	if c.Model.Note != "" {
		made += fmt.Sprintf(", model %s, tail %s", c.Model.Name, c.Model.Tail)
	}
	return made + ")"
}
