package report

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfStanding is the list of elections of an operation by itself: for the counter and
// for the file. With changesOnly a year that asks for no new election lists only the
// lines that differ from the last election.
func OfStanding(c answer.Comparison, changesOnly bool) Report {
	var r Report
	r.heading(1, "Where each farm and crop stands")
	for _, y := range c.CropYears {
		r.heading(2, fmt.Sprintf("Crop year %d", y.CropYear))
		r.standing(y, c.Today, changesOnly)
		r.lookAtARCIC(y)
		r.people(y)
	}
	r.run(c)
	return r
}

// standing adds who leads beside what was last elected, and who decides.
func (r *Report) standing(year answer.YearPart, today string, changesOnly bool) {
	s, farms := year.Standing, year.Farms
	shown, left := s.Lines, 0
	if changesOnly && !s.NewElection {
		shown = slices.DeleteFunc(slices.Clone(s.Lines), func(l answer.StandingLine) bool { return !l.Differs })
		left = len(s.Lines) - len(shown)
	}
	if len(shown) > 0 {
		r.table(standingTable(year, shown))
	}
	if left > 0 {
		r.text(fmt.Sprintf("Not listed: %d where the last election averages most.", left))
	}
	r.text(toBePaid(s, year.CropYear, today))
	r.notes(slices.Concat(deciders(shown, year), besides(shown, farms)))
}

// standingTable is a line for each farm and crop: odds, then the margin.
func standingTable(year answer.YearPart, lines []answer.StandingLine) Table {
	t := Table{
		Title:   fmt.Sprintf("Where each farm and crop stands, crop year %d", year.CropYear),
		Columns: []string{"farm and crop", "leans", "ARC-CO", "PLC", "neither", "ahead by", "last elected"},
		Notes:   []string{"ARC-CO, PLC, neither: which pays more, of 100 outcomes.", "ahead by: dollars per base acre on average, zeros included."},
	}
	if limited(lines) {
		t.Notes = append(t.Notes, limitedNote())
	}
	for _, l := range lines {
		odds := []string{"-", "-", "-"}
		if c := cropOf(year.Farms, l); c != nil && c.ChanceNeitherPays != nil {
			n := wording.Chances(c.ChanceNeitherPays, c.ChanceARCCOMore, c.ChancePLCMore, c.ChanceEqual)
			odds = []string{n[1], n[2], n[0]}
		}
		for i := range odds {
			odds[i] = wording.ShortCount(odds[i])
		}
		name := wording.Farm(l.Farm, year.Farms) + " " + l.Commodity.Name()
		t.Rows = append(t.Rows, slices.Concat([]string{name, wording.Leads(l.Leader)}, odds, []string{marginCell(l), wording.LastElected(l.OnRecord)}))
	}
	return t
}

// cropOf finds the crop of a line, nil where there is none.
func cropOf(farms []answer.FarmPart, l answer.StandingLine) *answer.CommodityPart {
	for _, f := range farms {
		for i, c := range f.Commodities {
			if f.Farm == l.Farm && c.Commodity == l.Commodity {
				return &f.Commodities[i]
			}
		}
	}
	return nil
}

// toBePaid says what a farm needs before it is paid, and by when.
func toBePaid(s answer.Standing, y crop.CropYear, today string) string {
	return wording.Sentences(wording.ToBePaid(s, y), wording.WithoutElection(s, y), wording.LastDay(s, today))
}

// besides names the lines whose election with the highest average over the operation
// is not the one that leads: because of a limit or of ARC-IC.
func besides(lines []answer.StandingLine, farms []answer.FarmPart) (said []string) {
	for _, l := range lines {
		if l.Highest == "" || l.Highest == farm.ARCIC || l.Highest == farm.HigherOf || string(l.Highest) == string(l.Leans) || l.Leans == answer.Neither {
			continue
		}
		said = append(said, fmt.Sprintf("Farm %s, %s: once limits are counted, the whole operation averages most with %s.", wording.Farm(l.Farm, farms), l.Commodity.Name(), l.Highest))
	}
	for _, f := range farms {
		if slices.ContainsFunc(lines, func(l answer.StandingLine) bool { return l.Farm == f.Farm && l.Highest == farm.ARCIC }) {
			said = append(said, individualAhead(f, farms))
		}
	}
	return said
}

// individualAhead compares ARC-IC of a farm with its highest mix of PLC and ARC-CO.
func individualAhead(f answer.FarmPart, among []answer.FarmPart) string {
	individual, other := f.IndividualAndMix()
	said := fmt.Sprintf("ARC-IC may matter on farm %s. %s.", wording.Farm(f.Farm, among), wording.Capital(f.ARCIC.Reason))
	if individual != nil && other != nil {
		said += fmt.Sprintf(" ARC-IC averages %s for the whole farm; the highest mix of PLC and ARC-CO averages %s. The ARC-IC figure is not confirmed.", wording.Whole(individual), wording.Whole(other))
	}
	return said + " ARC-IC covers every crop on the farm, and all producers must agree. Ask the county office to work it out."
}

// marginCell writes by how much a program is ahead, per base acre, and which where that is
// not the one the line leans to; where a limit is reached after it, with the margin before
// it in brackets.
func marginCell(l answer.StandingLine) string {
	said := "unknown"
	switch {
	case l.Margin == nil:
	case l.AfterLimit != nil:
		said = ahead(float64(l.AfterLimit.Mean)) + " " + beforeLimit(l)
	default:
		said = ahead(float64(*l.Margin))
	}
	return strings.TrimPrefix(said, string(l.Leader)+" ")
}

// deciders says for each farm who decides, and whether the contract is signed.
func deciders(lines []answer.StandingLine, year answer.YearPart) (said []string) {
	for _, l := range lines {
		text := fmt.Sprintf("Farm %s. %s %s", wording.Farm(l.Farm, year.Farms), wording.Deciders(l), wording.ContractState(l.Contract, year.CropYear))
		if !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return said
}

// people adds what each person is paid, poor cases first, and when at the earliest.
func (r *Report) people(y answer.YearPart) {
	if len(y.Operation.ByPerson) == 0 {
		return
	}
	t := Table{
		Title:   fmt.Sprintf("What each person is paid for %d with the programs that average most, dollars %s", y.CropYear, wording.AfterLimit),
		Columns: []string{"person", "1 in 10 lower", "1 in 4 lower", "average"},
		Notes:   []string{"If contracts are signed. An entity's payment is listed under its owners."},
	}
	if slices.ContainsFunc(y.Standing.Lines, func(l answer.StandingLine) bool { return l.Highest == farm.ARCIC }) {
		t.Notes = append(t.Notes, "ARC-IC is among these programs, and its figures are not confirmed.")
	}
	if said := sharesSentence(y); said != "" {
		t.Notes = append(t.Notes, said)
	}
	for _, p := range y.Operation.ByPerson {
		low, quarter := answer.Dollars(p.Percentiles[poor]), answer.Dollars(p.Percentiles[answer.Quarter])
		t.Rows = append(t.Rows, []string{p.ID, wording.Whole(&low), wording.Whole(&quarter), wording.Whole(&p.MeanAfterLimit)})
	}
	r.table(t)
	r.when(y)
}

// run adds how these figures can be made again, and the caution.
func (r *Report) run(c answer.Comparison) {
	r.text(wording.Made(c))
	r.caution(c.Caution)
}
