package summary

import (
	"slices"
	"strings"
	"unicode/utf8"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// used lists the prices and county yields that a farm's odds stand on, each with the figures
// between which it ends in 8 of 10 outcomes, and a note of where it comes from.
func used(f answer.FarmPart, n *noteList) report.Grid {
	g := report.Grid{Columns: []report.Column{
		{Head: "price or county yield", Left: true, Wraps: true}, {Head: "used"}, {Head: "in 8 of 10\noutcomes"}, {Head: "status", Left: true},
		{Head: "benchmark\nyield", Wraps: true}, {Head: "guarantee\nan acre"}, {Left: true},
	}}
	several := counties(f) > 1
	for _, c := range f.Commodities {
		if m := c.MYA; m != nil {
			g.Rows = append(g.Rows, []string{priceName(c.Commodity), wording.PriceText(&m.Mean), priceRange(m), string(m.Status), "", "", n.mark(oneLine(beginOf(m.Source)))})
		}
		for _, b := range c.Bases {
			if b.BaseAcres == 0 {
				continue
			}
			if row := yieldRow(c, b, several, n); !slices.ContainsFunc(g.Rows, func(other []string) bool { return slices.Equal(other, row) }) {
				g.Rows = append(g.Rows, row)
			}
		}
	}
	return g
}

// priceName names the price of a commodity, with its unit where that is no bushel.
func priceName(c crop.Commodity) string {
	if unit := c.Unit().Mass; unit != "bushel" {
		return c.Name() + " price, a " + unit
	}
	return c.Name() + " price"
}

// priceRange is what a price ends between in 8 of 10 outcomes.
func priceRange(m *answer.PriceView) string {
	if m.Low == nil || m.High == nil || m.Low.Value == m.High.Value {
		return none
	}
	return wording.PriceText(m.Low) + " to " + wording.PriceText(m.High)
}

// counties is in how many counties a farm has base.
func counties(f answer.FarmPart) int {
	seen := map[string]bool{}
	for _, c := range f.Commodities {
		for _, b := range c.Bases {
			seen[b.County] = true
		}
	}
	return len(seen)
}

// yieldRow is the county yield of a base, with its benchmark and guarantee; the county is
// named where the farm has base in several.
func yieldRow(c answer.CommodityPart, b answer.BasePart, several bool, n *noteList) []string {
	name := c.Commodity.Name()
	switch {
	case several:
		name += ", " + wording.County(b)
	case b.Practice == string(farm.AllPractices):
		name += " yield"
	}
	if b.Practice != string(farm.AllPractices) {
		name += ", " + b.Practice
	}
	row := []string{name, unknown, none, "", unknown, unknown, ""}
	var notes []string
	if y := b.CountyYield; y != nil {
		row[1], row[3] = short(y.Mean), string(y.Status)
		if y.Low != nil && y.High != nil && *y.Low != *y.High {
			row[2] = short(*y.Low) + " to " + short(*y.High)
		}
		notes = append(notes, beginOf(y.MeanFrom))
	}
	if b.BenchmarkYield != nil {
		row[4], row[5] = wording.Plain(b.BenchmarkYield), wording.Whole(b.Guarantee)
		if b.CountyYield == nil || b.BenchmarkStatus != b.CountyYield.Status {
			row[4] += wording.Mark(b.BenchmarkStatus)
		}
		notes = append(notes, "benchmark: "+beginOf(b.BenchmarkFrom))
	}
	if len(notes) > 0 {
		row[6] = n.mark(oneLine(strings.Join(notes, "; ")))
	}
	return row
}

// beginOf returns the first sentence of a source, without its full stop; the rest stands in
// the full report.
func beginOf(source string) string { return strings.TrimSuffix(wording.FirstSentences(source, 1), ".") }

// noteLetters is how many letters of a note stand on its line.
const noteLetters = 74

// oneLine cuts a note at a word, so that it stands on one line.
func oneLine(note string) string {
	cut, short := "", false
	for _, word := range strings.Fields(note) {
		if short = utf8.RuneCountInString(cut)+1+utf8.RuneCountInString(word) > noteLetters-len(" ..."); short {
			break
		}
		cut = strings.TrimSpace(cut + " " + word)
	}
	if short {
		return strings.TrimRight(cut, ",;:") + " ..."
	}
	return cut
}

// short writes a yield: whole from 100 units up, else to one decimal.
func short(y answer.Dollars) string {
	const whole = 100
	if y >= whole {
		return wording.Grouped(float64(y), 0)
	}
	return strings.TrimSuffix(program.Text(float64(y), 1), ".0")
}
