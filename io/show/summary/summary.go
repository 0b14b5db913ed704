package summary

import (
	"fmt"
	"strings"
	"unicode/utf8"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// Of lays out the whole operation: a line for each farm and crop of the first crop year, a
// short table of the later ones, then what they add up to, what to know before the county
// office, and what is not certain. The answer stands where the terminal stops. changesOnly is that of lineGrid.
func Of(c answer.Comparison, changesOnly bool) report.Report {
	var r report.Report
	first, now := c.CropYears[0], deciding(c)
	lines := lineGrid(first, changesOnly)
	lines.Title = []string{title(c), decides, counted(first)}
	r.Add(lines)
	r.Add(laterGrids(c)...)
	r.Add(since(c, first.CropYear, "")...)
	var said report.Lines
	said = append(said, oddsAsked(c)...)
	said = append(said, unknownLines(first)...)
	said = append(said, otherwise(first)...)
	said = append(said, stops(now)...)
	said = append(said, flagged(first, higherOf)...)
	said = append(said, tossUps(first)...)
	said = append(said, limitedLines(first)...)
	said = append(said, individual(now)...)
	said = append(said, totals(c.CropYears)...)
	said = append(said, toBePaid(deciding(c), c.Today)...)
	said = append(said, doubts(now)...)
	said = append(said, otherFlags(now)...)
	r.Add(append(said, caution+" "+wording.Sentences(run(c), wholeSource(c)), hint(first)))
	return r
}

// mostMoved is how many lines that moved since an earlier answer are listed.
const mostMoved = 6

// since says what changed in a crop year since an earlier answer, of all farms or of the one
// with the key only; nothing where there is none.
func since(c answer.Comparison, y crop.CropYear, only string) []report.Block {
	if c.Since == nil {
		return nil
	}
	found := report.OfSince(*c.Since, y, only, c.CropYears[0].Farms, mostMoved)
	said := report.Lines{wording.Sentences(found.Said...)}
	if len(found.Lines.Rows) == 0 {
		return []report.Block{report.Lines{found.Title + ": " + said[0]}}
	}
	found.Lines.Title = []string{found.Title + ":"}
	return []report.Block{found.Lines, said}
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

// caution is what every answer on a terminal ends with, before the line of the run.
const caution = "Estimates: not a promise, not advice on what to elect. Only FSA decides who is eligible and what is paid."

// decides says in one line what each program pays on.
const decides = "PLC pays on a low national price, ARC-CO on a low county yield times that price."

// counted says what the odds of the table are out of, and what its ranges are, where there
// are any.
func counted(y answer.YearPart) string {
	const odds = "Odds: of 100 outcomes."
	if !anyLine(y, func(c answer.CommodityPart) bool { return between(c) != none }) {
		return odds
	}
	return odds + " Range: price or county yield estimate a usual error off."
}

// title says what is compared, of what day the prices are, and whose.
func title(c answer.Comparison) string {
	return fmt.Sprintf("PLC or ARC-CO for %d. %s", c.CropYears[0].CropYear, prices(c.Market))
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

// run says when and how the figures were made.
func run(c answer.Comparison) string {
	made := fmt.Sprintf("Made %s (seed %d, %s draws", wording.Date(c.Today), c.Seed, wording.Grouped(float64(c.Draws), 0))
	if c.Model.Note != "" {
		made += fmt.Sprintf(", model %s, tail %s", c.Model.Name, c.Model.Tail)
	}
	return made + ")."
}

// wholeSource names the source of the prices where the title has its first words only, ""
// else.
func wholeSource(c answer.Comparison) string {
	if firstWords(c.Market.Source) == c.Market.Source {
		return ""
	}
	return "Prices: " + strings.TrimSuffix(c.Market.Source, ".") + "."
}

// prices says of what day the prices are and, in few words, where they are from.
func prices(m answer.MarketDate) string {
	said := "Prices of " + wording.Date(m.AsOf)
	if source := firstWords(m.Source); source != "" {
		said += " (" + source + ")"
	}
	return said + "."
}

// titleWords is how many letters of a source the title has room for.
const titleWords = 24

// firstWords returns the beginning of a source: to its first comma or semicolon, and no more
// words than the title has room for.
func firstWords(source string) string {
	if at := strings.IndexAny(source, ",;"); at >= 0 {
		source = source[:at]
	}
	short := ""
	for _, word := range strings.Fields(source) {
		if utf8.RuneCountInString(short)+1+utf8.RuneCountInString(word) > titleWords {
			break
		}
		short = strings.TrimSpace(short + " " + word)
	}
	return short
}
