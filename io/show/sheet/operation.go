package sheet

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// operation adds the sheet of the whole operation.
func (s *sheets) operation(c answer.Comparison, changesOnly bool) {
	y := c.CropYears[0]
	s.add(report.Heading{Level: 1, Text: fmt.Sprintf("All farms together: %s", counted(y))}, made(c),
		report.Banner(wording.ToBePaid(y.Standing, y.CropYear)+" "+wording.LastDay(y.Standing, c.Today)),
		report.Text(wording.WithoutElection(y.Standing, y.CropYear)))
	s.totals(y)
	s.add(standingTable(y, changesOnly))
	s.since(c)
	s.add(people(y))
	for _, later := range c.CropYears[1:] {
		s.add(report.Heading{Level: 2, Text: fmt.Sprintf("Crop year %d, less certain", later.CropYear)})
		s.totals(later)
		s.add(standingTable(later, changesOnly))
	}
	s.everyFarm(c)
	s.foot(c, "")
}

// counted says how many farms and people a year of an answer has: "3 farms, 2 people".
func counted(y answer.YearPart) string {
	people := "1 person"
	if n := len(y.Operation.ByPerson); n != 1 {
		people = fmt.Sprintf("%d people", n)
	}
	return fmt.Sprintf("%d farms, %s", len(y.Farms), people)
}

// totals says what the operation is paid after limits as the figures lean, and as last
// elected.
func (s *sheets) totals(y answer.YearPart) {
	leads, last := y.Operation.UnderElections(answer.AsItLeans), y.Operation.UnderElections(answer.LastElected)
	if leads == nil || leads.Percentiles == nil {
		s.add(report.Lead("No farm has figures for both programs."))
		return
	}
	s.add(report.Lead(fmt.Sprintf("For %d, as the figures lean, all farms together are paid %s, and %s on average.", y.CropYear, lowCase(leads), wording.Whole(leads.MeanAfterLimit))))
	said := ""
	if last != nil && last.Percentiles != nil {
		said = fmt.Sprintf("As last elected: %s, and %s on average.", lowCase(last), wording.Whole(last.MeanAfterLimit))
		if *leads.MeanAfterLimit > *last.MeanAfterLimit && leads.Percentiles[answer.Tenth] < last.Percentiles[answer.Tenth] {
			said += " As the figures lean the average is higher, and the poor case lower."
		}
		if last.ARCICInside {
			said += " An ARC-IC figure that is not confirmed is in it."
		}
		if len(last.LeftOut) > 0 {
			said += " Without a last election: " + wording.Joined(wording.FarmsAndCrops(last.LeftOut, y.Farms)) + "."
		}
	}
	s.add(report.Text(wording.Sentences(said, "Both are in whole dollars after shares, the payment limit and sequestration, if all contracts are signed.")))
	if typed := y.Operation.UnderElections(answer.TypedChoice); typed != nil && typed.Percentiles != nil {
		s.add(report.Text(fmt.Sprintf("Under the choices typed here: %s, and %s on average. %s", lowCase(typed), wording.Whole(typed.MeanAfterLimit), wording.WithoutChoice(y, fewOf(y)))))
	}
	if len(leads.LeftOut) > 0 {
		s.add(report.Text("Left out, because a figure is missing: " + wording.Joined(wording.FarmsAndCrops(leads.LeftOut, y.Farms)) + "."))
	}
}

// lowCase says how low 1 outcome in 10 is.
func lowCase(u *answer.UnderPart) string {
	if low := wholeAt(*u.Percentiles, answer.Tenth); low != "$0" {
		return "less than " + low + " in 1 of 10 outcomes"
	}
	return "nothing in at least 1 of 10 outcomes"
}

// standingTable has a line for each farm and crop, odds before dollars.
func standingTable(y answer.YearPart, changesOnly bool) report.Table {
	t := report.Table{
		Title:   fmt.Sprintf("Where each farm and crop stands for %d: of 100 outcomes, then dollars a base acre on average", y.CropYear),
		Columns: []string{"farm and crop", "base acres", "ARC-CO more", "PLC more", "neither pays", "leans", "ahead by", "range", "last elected"},
	}
	t.Notes = []string{"Range: how far the lead moves with the price a usual error off, or the county yield estimated another way. It is no limit."}
	left := 0
	for _, f := range y.Farms {
		lines := linesOf(y, f.Farm)
		for _, part := range f.Commodities {
			line := lineOf(lines, part)
			if changesOnly && !y.Standing.NewElection && line != nil && !line.Differs {
				left++
				continue
			}
			t.Rows = append(t.Rows, standingRow(wording.Farm(f.Farm, y.Farms), part))
		}
	}
	if slices.ContainsFunc(y.Standing.Lines, func(l answer.StandingLine) bool { return l.AfterLimit != nil }) {
		t.Notes = append(t.Notes, "Where a payment limit is reached, the amount is after shares, limit and sequestration.")
	}
	if left > 0 {
		t.Notes = append(t.Notes, fmt.Sprintf("Not listed: %d lines that lean as last elected.", left))
	}
	return t
}

func standingRow(farm string, part answer.CommodityPart) []string {
	row := []string{farm + " " + part.Commodity.Name(), wording.Plain(&part.BaseAcres), "-", "-", "-", wording.Leads(part.Leader), "unknown", "-", wording.LastElected(part.OnRecord)}
	if part.Difference == nil {
		return row
	}
	n := wording.Chances(part.ChanceNeitherPays, part.ChanceARCCOMore, part.ChancePLCMore, part.ChanceEqual)
	row[2], row[3], row[4] = wording.ShortCount(n[1]), wording.ShortCount(n[2]), wording.ShortCount(n[0])
	row[6] = wording.Margin(part.Difference.Mean)
	if part.AfterLimit != nil {
		row[6] = wording.Margin(part.AfterLimit.Mean) + " (" + row[6] + " before limits)"
	}
	if part.Leader != answer.LeadsPLC && part.Leader != answer.LeadsARCCO && part.Leans != answer.Neither {
		row[6] = string(part.Leans) + " " + row[6]
	}
	if part.Difference.Moves() {
		row[7] = strings.ReplaceAll(strings.TrimPrefix(wording.Between(*part.Difference), "from "), " for", "")
	}
	return row
}

// people lists what each person is paid after limits, poor cases first.
func people(y answer.YearPart) report.Block {
	leads, last := y.Operation.UnderElections(answer.AsItLeans), y.Operation.UnderElections(answer.LastElected)
	t := report.Table{
		Title:   "What each person is paid, in dollars after share, payment limit and sequestration",
		Columns: []string{"", "1 in 10 is below", "1 in 4 is below", "average", "average as last elected"},
		Notes:   []string{"The first three as the figures lean, without ARC-IC. An entity's payment is listed under its owners. The average is not money to count on."},
	}
	if leads == nil || len(leads.ByPerson) == 0 {
		return report.Text("")
	}
	for _, p := range leads.ByPerson {
		before := "-"
		if last != nil {
			if i := slices.IndexFunc(last.ByPerson, func(q answer.PersonPart) bool { return q.ID == p.ID }); i >= 0 {
				before = wording.Whole(&last.ByPerson[i].MeanAfterLimit)
			}
		}
		t.Rows = append(t.Rows, []string{p.ID, wholeAt(p.Percentiles, answer.Tenth), wholeAt(p.Percentiles, answer.Quarter), wording.Whole(&p.MeanAfterLimit), before})
	}
	return t
}

func wholeAt(p answer.Percentiles, place int) string {
	d := answer.Dollars(p[place])
	return wording.Whole(&d)
}

// everyFarm adds what holds for every farm: who decides, what to check and what is not
// certain.
func (s *sheets) everyFarm(c answer.Comparison) {
	y := c.CropYears[0]
	checks := deciders(y)
	stops, toCheck, doubts, know := grouped(common(y.Farms))
	s.add(report.Heading{Level: 2, Text: "Before you go to the county office"}, append(checks, toCheck...))
	for _, f := range y.Farms {
		s.add(report.Text(individual(f, y.Farms)))
	}
	s.add(points(stops))
	if len(doubts) > 0 {
		s.add(report.Heading{Level: 2, Text: "Not certain yet"}, points(doubts))
	}
	s.add(report.Text(wording.Sentences(know...)))
	var days []string
	for _, f := range y.Farms {
		if text := paydays(y, f); text != "" && !slices.Contains(days, text) {
			days = append(days, text)
		}
	}
	s.add(report.Text(strings.Join(days, " ")))
}

// deciders says who decides on each farm and whether its contract is signed, farms of
// which the same holds together.
func deciders(y answer.YearPart) (said report.Checklist) {
	farms := map[string][]string{}
	var order []string
	for _, l := range y.Standing.Lines {
		text := wording.Deciders(l) + " " + wording.ContractState(l.Contract, y.CropYear)
		if farms[text] == nil {
			order = append(order, text)
		}
		if name := wording.Farm(l.Farm, y.Farms); !slices.Contains(farms[text], name) {
			farms[text] = append(farms[text], name)
		}
	}
	for _, text := range order {
		word := "Farm "
		if len(farms[text]) > 1 {
			word = "Farms "
		}
		said = append(said, word+wording.Joined(farms[text])+": "+text)
	}
	return said
}
