package sheet

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// mostWithTables is the most crops of a farm that each get a table of figures; with more,
// what it holds is in the pictures, so that the farm keeps to two sheets of paper.
const mostWithTables = 3

// farm adds the sheet of farm i.
func (s *sheets) farm(c answer.Comparison, i int) {
	y := c.CropYears[0]
	f := y.Farms[i]
	level := 1
	if len(y.Farms) > 1 {
		level = 2
	}
	lines := linesOf(y, f.Farm)
	s.add(report.Heading{Level: level, Text: fmt.Sprintf("Farm %s, %s", wording.Farm(f.Farm, y.Farms), wording.HomeCounty(f))}, made(c),
		report.Banner(wording.ToBePaid(y.Standing, y.CropYear)+" "+wording.LastDay(y.Standing, c.Today)))
	for k, part := range f.ByStake() {
		s.crop(part, lineOf(lines, part), level+1, len(f.Commodities) <= mostWithTables, k == 0)
	}
	if len(y.Farms) == 1 {
		s.since(c)
	}
	s.add(report.Text(laterYears(c, i)), report.Text(individual(f, y.Farms)))
	s.before(c, f, lines, level+1)
	s.foot(c, "Dollars a base acre are before shares, payment limit and sequestration (a federal cut).")
}

// individual says that ARC-IC can matter on a farm among those of an answer, "" where it
// does not.
func individual(f answer.FarmPart, among []answer.FarmPart) string {
	if f.ARCIC == nil || !f.ARCIC.CanMatter || f.ARCIC.PerBaseAcre == nil {
		return ""
	}
	alone, other := f.IndividualAndMix()
	return fmt.Sprintf("ARC-IC, by the farm's own yields, may matter on farm %s. It averages %s for the whole farm, a figure that is not confirmed. The highest mix of PLC and ARC-CO averages %s. Ask the county office to work ARC-IC out.", wording.Farm(f.Farm, among), wording.Whole(alone), wording.Whole(other))
}

// laterYears gives the leads of the crop years after the first, "" for none.
func laterYears(c answer.Comparison, i int) string {
	var years []string
	for _, y := range c.CropYears[1:] {
		var crops []string
		for _, part := range y.Farms[i].Commodities {
			crops = append(crops, laterLead(part))
		}
		years = append(years, fmt.Sprintf("%d, less certain: %s.", y.CropYear, strings.Join(crops, "; ")))
	}
	if len(years) > 0 && c.ChangeFrom != 0 {
		years = append(years, "The election can change each year.")
	}
	return strings.Join(years, " ")
}

func laterLead(part answer.CommodityPart) string {
	name := part.Commodity.Name()
	switch {
	case part.Difference == nil:
		return name + " not known"
	case part.Leader == answer.LeadsPLC || part.Leader == answer.LeadsARCCO:
		return fmt.Sprintf("%s leans %s (%s ahead)", name, part.Leader, wording.Margin(part.Difference.Mean))
	}
	return fmt.Sprintf("%s %s", name, wording.Leads(part.Leader))
}

// before adds what to check before the county office, what is not certain, and when money
// comes.
func (s *sheets) before(c answer.Comparison, f answer.FarmPart, lines []answer.StandingLine, level int) {
	y := c.CropYears[0]
	own := slices.DeleteFunc(slices.Clone(f.Flags), func(flag answer.Flag) bool {
		return slices.Contains(common(y.Farms), flag) || individual(f, y.Farms) != "" && strings.Contains(flag.Message, "ARC-IC") && doubtful[flag.Code] // said above
	})
	first := "Compare base acres and PLC yields with your Farm Service Agency (FSA) record."
	if y.Standing.LastDay == "unknown" {
		first = "Compare base acres and PLC yields with your record at the Farm Service Agency (FSA). Ask for the deadline."
	}
	checks := report.Checklist{first}
	for _, l := range lines {
		if text := wording.Deciders(l) + " " + wording.ContractState(l.Contract, y.CropYear); !slices.Contains(checks, text) {
			checks = append(checks, text)
		}
	}
	left := []report.Block{report.Heading{Level: level, Text: "Before you go to the county office"}}
	right := []report.Block{report.Heading{Level: level, Text: "Not certain yet"}}
	stops, toCheck, doubts, know := grouped(own)
	checks = append(checks, toCheck...)
	if text := notFinal(f); text != "" {
		doubts = append(doubts, text)
	}
	right = append(right, points(doubts))
	switch choice := yourChoice(y, lines); { // in the shorter column, to make the sheet no longer
	case choice == "":
	case letters(checks) > letters(doubts):
		right = append(right, report.Lead(choice))
	default:
		checks = append(checks, choice)
	}
	left = append(left, checks)
	if len(stops) > 0 {
		s.add(report.Heading{Level: level, Text: "What stops a payment or leaves a figure out"}, points(stops))
	}
	s.add(report.Beside{Left: left, Right: right}, report.Text(wording.Sentences(paydays(y, f), strings.Join(know, " "))))
}

// paydays says when the crops of a farm can be paid at the earliest.
func paydays(y answer.YearPart, f answer.FarmPart) string {
	var said []string
	for _, part := range f.Commodities {
		if part.PaymentNotBefore == "" {
			continue
		}
		if text := wording.Payday(y.CropYear, part.PaymentNotBefore, part.TaxYear); !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return strings.Join(said, " ")
}

// notFinal names the figures of a farm that can still move.
func notFinal(f answer.FarmPart) string {
	price, yield := false, false
	for _, part := range f.Commodities {
		price = price || part.MYA != nil && part.MYA.Status.Marked()
		for _, b := range part.Bases {
			yield = yield || b.CountyYield != nil && b.CountyYield.Status.Marked()
		}
	}
	switch {
	case price && yield:
		return "National prices are projected, and county yields are not yet USDA's. Both can still move."
	case price:
		return "National prices are projections until the marketing year ends."
	case yield:
		return "County yields are not yet USDA's."
	}
	return ""
}
