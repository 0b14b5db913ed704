package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// unknown stands for a figure that is missing, none for one that there is not.
const unknown, none = "unknown", "-"

// lineGrid is a line for each farm and crop of a crop year: the odds, the lead, how far it
// is ahead, and what was elected last. With changesOnly a year that asks for no new election
// has only the lines whose program of the highest average differs from that.
func lineGrid(y answer.YearPart, changesOnly bool) report.Grid {
	const odds, ahead = "pays more, of 100", "ahead, a base acre"
	equal := anyLine(y, paysEqual)
	g := report.Grid{Columns: []report.Column{
		{Head: "farm", Left: true}, {Head: "crop", Left: true, Wraps: true}, {Head: "base\nacres"},
		{Over: odds, Head: "ARC-CO"}, {Over: odds, Head: "PLC"}, {Over: odds, Head: "neither"},
	}}
	if equal {
		g.Columns = append(g.Columns, report.Column{Over: odds, Head: "same"})
	}
	g.Columns = append(g.Columns, report.Column{Head: "leans", Left: true, Wraps: true}, report.Column{Over: ahead, Head: "average", Wraps: true},
		report.Column{Over: ahead, Head: "range"}, report.Column{Head: "last\nelected", Left: true})
	left := 0
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if changesOnly && !y.Standing.NewElection && !differs(y, f.Farm, c) {
				left++
				continue
			}
			row := []string{wording.Farm(f.Farm, y.Farms), c.Commodity.Name(), wording.Plain(&c.BaseAcres)}
			row = append(row, oddsCells(c, equal)...)
			g.Rows = append(g.Rows, append(row, leans(c), margin(c), between(c), lastElected(c)))
		}
	}
	if anyLine(y, crosses) {
		g.Notes = append(g.Notes, "Below zero: the other program is ahead.")
	}
	if left > 0 {
		g.Notes = append(g.Notes, fmt.Sprintf("Not listed: %d where the last election has the highest average.", left))
	}
	return g
}

// differs reports whether the program of the highest average is not what a line had last.
func differs(y answer.YearPart, key string, c answer.CommodityPart) bool {
	return slices.ContainsFunc(y.Standing.Lines, func(l answer.StandingLine) bool {
		return l.Farm == key && l.Commodity == c.Commodity && l.Differs
	})
}

// paysEqual reports whether both programs pay the same in 1 of 100 outcomes or more.
func paysEqual(c answer.CommodityPart) bool {
	return c.ChanceNeitherPays != nil && wording.Hundred(c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceNeitherPays, c.ChanceEqual)[3] > 0
}

// anyLine reports whether a line of the year is so.
func anyLine(y answer.YearPart, is func(answer.CommodityPart) bool) bool {
	return slices.ContainsFunc(y.Farms, func(f answer.FarmPart) bool { return slices.ContainsFunc(f.Commodities, is) })
}

// oddsCells are the outcomes in 100 in which ARC-CO pays more, PLC does, neither pays, and
// where asked both pay the same.
func oddsCells(c answer.CommodityPart, equal bool) []string {
	cells := []string{none, none, none}
	if c.ChanceNeitherPays != nil {
		n := wording.Chances(c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceNeitherPays, c.ChanceEqual)
		for i := range n {
			n[i] = wording.ShortCount(n[i])
		}
		if equal {
			return n
		}
		return n[:3]
	}
	if equal {
		cells = append(cells, none)
	}
	return cells
}

// leans is the verdict; where a mark follows, a note below the table says more.
func leans(c answer.CommodityPart) string {
	if paysHigher(c) {
		return "higher"
	}
	word := wording.Leads(c.Leader)
	if c.AfterLimit != nil {
		word += limitMark
	}
	return word
}

// paysHigher reports whether the law pays the higher of both programs, whatever is elected.
func paysHigher(c answer.CommodityPart) bool {
	return slices.ContainsFunc(c.Programs, func(one answer.OneProgram[answer.ProgramPart]) bool { return one.Program == farm.HigherOf })
}

// limitMark stands at a line where a payment limit is reached.
const limitMark = "*"

// margin is how far one program is ahead on average. Where the line leans to neither it
// names the program.
func margin(c answer.CommodityPart) string {
	switch {
	case c.Difference == nil:
		return unknown
	case c.Leans == answer.Neither:
		return "even"
	case c.Leader != c.Leans || paysHigher(c):
		return string(c.Leans) + " " + wording.Margin(c.Difference.Mean)
	}
	return wording.Margin(c.Difference.Mean)
}

// between is the range of the margin, seen from the program that is ahead on average.
func between(c answer.CommodityPart) string {
	d := c.Difference
	if d == nil || !d.Moves() || c.Leans == answer.Neither {
		return none
	}
	low, high := d.Lowest, d.Highest
	if c.Leans == answer.LeadsPLC {
		low, high = -d.Highest, -d.Lowest
	}
	return withSign(low) + " to " + withSign(high)
}

// crosses reports whether the range of a line's margin has both programs ahead.
func crosses(c answer.CommodityPart) bool {
	d := c.Difference
	return d != nil && d.Moves() && d.Lowest < -program.HalfCent && d.Highest > program.HalfCent
}

// centsBelow is the size in USD a base acre under which an end of a range has cents.
const centsBelow = 1

// withSign writes one end of a range, in whole dollars but for a few cents.
func withSign(d answer.Dollars) string {
	if d > -centsBelow && d < centsBelow {
		return wording.Money(&d)
	}
	return wording.Whole(&d)
}

// tossUps say what decides where a line is too close to call.
func tossUps(y answer.YearPart) (said report.Lines) {
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if c.Leader == answer.Close && !paysHigher(c) {
				said = append(said, fmt.Sprintf("Toss-up on %s: %s.", lineName(f.Farm, c, y.Farms), strings.TrimSuffix(c.LeaderReason, ".")))
			}
		}
	}
	return capped(said, "toss-ups")
}

// otherwise names the lines that lean to another program than the one last elected, or says
// that none does.
func otherwise(y answer.YearPart) report.Lines {
	known := false
	var names []string
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			leads := c.Leader == answer.LeadsPLC || c.Leader == answer.LeadsARCCO
			if c.OnRecord == nil || !leads || paysHigher(c) {
				continue
			}
			if known = true; string(*c.OnRecord) != string(c.Leader) {
				names = append(names, lineName(f.Farm, c, y.Farms))
			}
		}
	}
	switch {
	case !known:
		return nil
	case len(names) == 0:
		return report.Lines{"No line leans otherwise than last elected."}
	case len(names) > most:
		names = append(names[:most], fmt.Sprintf("%d more", len(names)-most))
	}
	return report.Lines{"Leans otherwise than last elected: " + strings.Join(names, ", ") + "."}
}

// unknownLines say what is missing where a line has no lead.
func unknownLines(y answer.YearPart) (said report.Lines) {
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if c.Leader == answer.None {
				said = append(said, fmt.Sprintf("Farm %s has no lead. %s.", lineName(f.Farm, c, y.Farms), wording.Capital(strings.TrimSuffix(c.LeaderReason, "."))))
			}
		}
	}
	return capped(said, "lines have no lead")
}

// most is how many farms or lines are named one by one.
const most = 3

// capped keeps the first few sentences and counts the others.
func capped(said report.Lines, others string) report.Lines {
	if len(said) <= most {
		return said
	}
	return append(said[:most:most], fmt.Sprintf("%d more %s: see --full.", len(said)-most, others))
}

// lineName names a line: "0417 corn".
func lineName(key string, c answer.CommodityPart, farms []answer.FarmPart) string {
	return wording.Farm(key, farms) + " " + c.Commodity.Name()
}

// nonEmpty is a line, none for "".
func nonEmpty(text string) report.Lines {
	if text == "" {
		return nil
	}
	return report.Lines{text}
}

// lastElected is wording.LastElected, "-" where the file does not give it: the line has no
// room for more.
func lastElected(c answer.CommodityPart) string {
	if c.OnRecord == nil {
		return "-"
	}
	return wording.LastElected(c.OnRecord)
}
