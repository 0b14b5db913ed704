package sheet

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// crop adds the answer of one crop: two sentences, pictures of how often, how much and what
// would change it, and with table set its figures. The first crop of a sheet gives the
// programs their full names.
func (s *sheets) crop(part answer.CommodityPart, line *answer.StandingLine, level int, table, first bool) {
	title := report.Heading{Level: level, Text: cropTitle(part)}
	answers := sheets{}
	answers.add(report.Lead(lead(part)), report.Text(behind(part, line)))
	if part.Difference == nil {
		s.add(title)
		s.add(answers...)
		return
	}
	notes := report.Small(wording.Sentences(protects(part, first), yieldsUsed(part)))
	if table {
		s.add(title)
		s.add(answers...)
		s.add(report.Beside{Left: []report.Block{report.HowOften(part), report.AtPrices(part)}, Right: []report.Block{report.HowMuch(part), figures(part)}}, notes)
		return
	}
	dots := report.HowMuch(part)
	dots.Question = "" // to save room: the drawing names its axis
	s.add(report.Beside{Left: slices.Concat([]report.Block{title}, answers, []report.Block{report.HowOften(part)}), Right: []report.Block{dots, report.AtPrices(part)}})
}

// cropTitle names a crop, its lead and its last election: "Corn, 120 base acres: leans
// ARC-CO. Last elected: PLC".
func cropTitle(part answer.CommodityPart) string {
	title := fmt.Sprintf("%s, %s base acres: ", wording.Capital(part.Commodity.Name()), wording.Plain(&part.BaseAcres))
	switch {
	case part.Programs.Of(farm.HigherOf) != nil:
		title += "paid the higher of both"
	case part.Leader == answer.LeadsPLC || part.Leader == answer.LeadsARCCO:
		title += "leans " + string(part.Leader)
	default:
		title += wording.Leads(part.Leader)
	}
	return title + ". Last elected: " + wording.LastElected(part.OnRecord)
}

// lead is the sentence to take away.
func lead(part answer.CommodityPart) string {
	if part.Difference == nil {
		return "No figures: " + part.LeaderReason + "."
	}
	return wording.Odds(part)
}

// behind says by how much a program is ahead and how far that can move; where the lead is
// not clear, why.
func behind(part answer.CommodityPart, line *answer.StandingLine) string {
	if part.Difference == nil {
		return ""
	}
	var total *answer.Dollars
	if line != nil {
		total = line.MarginTotal
	}
	said := []string{wording.Average(part, total), wording.Range(part), nowNeither(part), byYield(part)}
	switch {
	case part.Programs.Of(farm.HigherOf) != nil:
		said = []string{"For this year FSA pays the higher of the two, whatever was elected."}
	case part.Leader == answer.Close:
		said = append(said, "A toss-up: "+part.LeaderReason+".")
	case part.Leader == answer.LittleChance:
		said = append(said, "Little at stake: "+part.LeaderReason+".")
	}
	return wording.Sentences(append(said, afterLimit(part))...)
}

// nowNeither says, where neither program pays at the price and yields used, that the
// averages come from other outcomes; else "".
func nowNeither(part answer.CommodityPart) string {
	if at := part.Elsewhere; len(at) == 0 || at[len(at)/2].PLC != 0 || at[len(at)/2].ARCCO != 0 {
		return ""
	}
	return "At the price and yield used neither pays; the averages come from lower ones."
}

// byYield says where ARC-CO leads although at the county yield used it pays more at no
// price, which the picture of prices shows; else "".
func byYield(part answer.CommodityPart) string {
	leads := wording.LeadAtPrices(part)
	if part.Leader != answer.LeadsARCCO || len(leads) == 0 || slices.ContainsFunc(leads, func(l answer.Lead) bool { return l.Leader == answer.LeadsARCCO }) {
		return ""
	}
	return "ARC-CO's lead comes from lower county yields: at the yield used it pays more at no price."
}

// afterLimit says what a payment limit leaves of the margin, "" where none is reached.
func afterLimit(part answer.CommodityPart) string {
	a := part.AfterLimit
	if a == nil {
		return ""
	}
	ahead := "ARC-CO"
	if a.Mean < 0 {
		ahead = "PLC"
	}
	return fmt.Sprintf("A payment limit is reached in %s of 100 outcomes. After it, shares and sequestration, %s is %s a base acre ahead.", wording.InHundred(a.ChanceOfLimit), ahead, wording.Margin(a.Mean))
}

// protects says below what each program pays, with their full names where first is set.
func protects(part answer.CommodityPart, first bool) string {
	if part.EffectiveReferencePrice == nil {
		return ""
	}
	plc, arc := "PLC", "ARC-CO"
	if first {
		plc, arc = "PLC (Price Loss Coverage)", "ARC-CO (Agriculture Risk Coverage, county)"
	}
	said := fmt.Sprintf(plc+" pays when the national price ends below %s%s.", wording.PriceText(part.EffectiveReferencePrice), wording.Mark(part.ReferencePriceStatus))
	for _, b := range part.Bases {
		if b.Guarantee == nil || b.BaseAcres == 0 {
			continue
		}
		if len(part.Bases) > 1 {
			return said + " " + arc + " pays when county yield times price ends below the county's guarantee."
		}
		return said + fmt.Sprintf(" %s pays when county yield times price ends below %s an acre%s.", arc, wording.Whole(b.Guarantee), wording.Mark(b.GuaranteeStatus))
	}
	return said
}

// yieldsUsed says on which county yields the odds stand, of several without their range.
func yieldsUsed(part answer.CommodityPart) string {
	var said, short []string
	for _, b := range part.Bases {
		if b.BaseAcres == 0 {
			continue
		}
		said = append(said, wording.YieldUsed(part, b))
		if b.CountyYield != nil {
			place := wording.County(b)
			if b.Practice != string(farm.AllPractices) {
				place += " " + b.Practice
			}
			short = append(short, place+" "+wording.YieldText(part.Commodity, b.CountyYield.Mean)+wording.Mark(b.CountyYield.Status))
		}
	}
	if len(said) < 2 {
		return strings.Join(said, " ")
	}
	return "Yields used: " + strings.Join(short, ", ") + "."
}

// figures is the table of what each program pays, in dollars per base acre.
func figures(part answer.CommodityPart) report.Table {
	t := report.Table{Columns: []string{part.Commodity.Name() + ", dollars a base acre"}}
	for _, one := range part.Programs {
		t.Columns = append(t.Columns, string(one.Program))
	}
	for _, row := range rows {
		cells := []string{row.name}
		for _, one := range part.Programs {
			cell := "unknown"
			if one.Figures != nil {
				cell = row.cell(one.Figures)
			}
			cells = append(cells, cell)
		}
		t.Rows = append(t.Rows, cells)
	}
	return t
}

// rows are the lines of figures.
var rows = []struct {
	name string
	cell func(*answer.ProgramPart) string
}{
	{"pays anything, of 100 outcomes", func(p *answer.ProgramPart) string { return wording.ShortCount(wording.InHundred(p.ChanceOfPayment)) }},
	{"average when it pays", func(p *answer.ProgramPart) string {
		if p.MeanWhenPaying == nil {
			return "-"
		}
		return wording.Money(p.MeanWhenPaying)
	}},
	{"middle case (half pay less)", at(answer.Half)},
}

func at(place int) func(*answer.ProgramPart) string {
	return func(p *answer.ProgramPart) string {
		d := answer.Dollars(p.Percentiles[place])
		return wording.Money(&d)
	}
}
