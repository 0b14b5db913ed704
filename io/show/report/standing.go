package report

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfStanding is the list of elections of an operation by itself: for the counter and
// for the file. With changesOnly a year that asks for no new election lists only the
// lines that differ from the record.
func OfStanding(c answer.Comparison, changesOnly bool) Report {
	var r Report
	r.heading(1, "What to sign")
	for _, y := range c.CropYears {
		r.heading(2, fmt.Sprintf("Crop year %d", y.CropYear))
		r.standing(y, changesOnly)
		r.people(y)
	}
	r.run(c)
	return r
}

// standing adds who leads beside what is on record, and who signs.
func (r *Report) standing(year answer.YearPart, changesOnly bool) {
	s, y, farms := year.Standing, year.CropYear, year.Farms
	r.text(electAnew(s, y))
	shown, left := s.Lines, 0
	if changesOnly && !s.NewElection {
		shown = slices.DeleteFunc(slices.Clone(s.Lines), func(l answer.StandingLine) bool { return !l.Differs })
		left = len(s.Lines) - len(shown)
	}
	t := Table{
		Title:   fmt.Sprintf("What to sign, crop year %d; margin in USD per base acre on average", y),
		Columns: []string{"farm and commodity", "lead", "margin", "on record"},
	}
	if limited(shown) {
		t.Notes = []string{limitedNote()}
	}
	for _, l := range shown {
		t.Rows = append(t.Rows, append([]string{l.Farm + " " + l.Commodity.Name()}, signCells(l)...))
	}
	if len(t.Rows) > 0 {
		r.table(t)
	}
	if left > 0 {
		r.text(fmt.Sprintf("Not listed: %d where what is on record has the highest average.", left))
	}
	r.notes(slices.Concat(signers(shown, y), besides(shown, farms)))
}

// electAnew says whether a year needs a new election, and by when to elect and sign.
func electAnew(s answer.Standing, y crop.CropYear) string {
	by := fmt.Sprintf("The last day is %s (%s).", s.LastDay, s.LastDayFrom)
	if s.LastDay == "unknown" || s.LastDay == "" {
		by = fmt.Sprintf("The last day is not known here: ask the county office (%s).", s.LastDayFrom)
	}
	if !s.NewElection {
		return fmt.Sprintf("For crop year %d the election on record stands unless it is changed; the contract has to be signed each year, and without it nothing is paid. %s", y, by)
	}
	return fmt.Sprintf("For %d, every farm needs a new election and a signed contract to be paid, even to stay in the same program (%s). %s", y, s.Source, by)
}

// besides names the lines whose election with the highest average over the operation
// is not the one that leads: because of a limit or of ARC-IC.
func besides(lines []answer.StandingLine, farms []answer.FarmPart) (said []string) {
	for _, l := range lines {
		if l.Highest == "" || l.Highest == farm.ARCIC || string(l.Highest) == string(l.Leans) || l.Leans == answer.Neither {
			continue
		}
		said = append(said, fmt.Sprintf("Farm %s, %s: with limits the whole operation averages most when it has %s.", l.Farm, l.Commodity.Name(), l.Highest))
	}
	for _, f := range farms {
		if slices.ContainsFunc(lines, func(l answer.StandingLine) bool { return l.Farm == f.Farm && l.Highest == farm.ARCIC }) {
			said = append(said, individualAhead(f))
		}
	}
	return said
}

// individualAhead compares ARC-IC of a farm with its highest combination of PLC and
// ARC-CO.
func individualAhead(f answer.FarmPart) string {
	individual, other := answer.Dollars(0), answer.Dollars(0)
	for _, e := range f.Elections {
		switch {
		case e.Mean == nil:
		case slices.Contains(slices.Collect(maps.Values(e.Choice)), farm.ARCIC):
			individual = *e.Mean
		default:
			other = max(other, *e.Mean)
		}
	}
	return fmt.Sprintf("Farm %s: ARC-IC, one choice for the whole farm in place of PLC and ARC-CO, averages %s in all against %s under the highest combination of the two, before share, limit and sequestration; %s. It holds for every commodity and wants all producers to agree. Its figures are not confirmed: have the county office work it out before choosing it.", f.Farm, wording.Whole(&individual), wording.Whole(&other), f.ARCIC.Reason)
}

// signCells are the cells for the lead, its margin, and whether the record differs.
func signCells(l answer.StandingLine) []string {
	record, margin := "none", "unknown"
	if l.Margin != nil {
		margin = ahead(float64(*l.Margin))
	}
	if l.Margin != nil && l.AfterLimit != nil {
		margin = ahead(float64(l.AfterLimit.Mean)) + " " + beforeLimit(l)
	}
	if l.OnRecord != nil {
		record = string(*l.OnRecord)
		switch {
		case l.Leader == answer.Close || l.Leader == answer.LittleChance || l.Leader == answer.None:
		case record == string(l.Leader):
			record += ", as the lead"
		default:
			record += ", not the lead"
		}
	}
	return []string{leadWords[l.Leader], margin, record}
}

// signers says for each farm who signs, and whether that is still possible.
func signers(lines []answer.StandingLine, y crop.CropYear) (said []string) {
	for _, l := range lines {
		text := "Farm " + l.Farm + ": " + whoSigns(l) + " " + contractWords(l.Contract, y)
		if !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return said
}

// whoSigns names the producers who have to agree.
func whoSigns(l answer.StandingLine) string {
	var words []string
	for _, s := range l.Signers {
		words = append(words, fmt.Sprintf("%s (%s)", s.ID, wording.Percent(s.Share)))
	}
	if l.Others > 0 {
		words = append(words, fmt.Sprintf("others outside this file (%s)", wording.Percent(l.Others)))
	}
	if len(words) == 1 {
		return words[0] + " decides and signs."
	}
	return wording.Joined(words) + " share in the crop: all of them have to agree and sign."
}

func contractWords(c farm.Contract, y crop.CropYear) string {
	switch c {
	case farm.Signed:
		return fmt.Sprintf("The contract for %d is signed.", y)
	case farm.Missed:
		return fmt.Sprintf("Sign-up for %d closed without a signature: nothing is paid.", y)
	}
	return fmt.Sprintf("The contract for %d is still to be signed: without it nothing is paid.", y)
}

// people adds what each person is paid and when at the earliest, poor cases first.
func (r *Report) people(y answer.YearPart) {
	if len(y.Operation.ByPerson) == 0 {
		return
	}
	t := Table{
		Title:   fmt.Sprintf("For a lender: crop year %d by person under the choices with the highest average, USD after share, limit and sequestration", y.CropYear),
		Columns: []string{"person", "1 in 10 lower", "1 in 4 lower", "on average", "not before", "tax year"},
		Notes:   []string{"if signed; what an entity is paid stands with its owners; the average is not money to plan with"},
	}
	if slices.ContainsFunc(y.Standing.Lines, func(l answer.StandingLine) bool { return l.Highest == farm.ARCIC }) {
		t.Notes = append(t.Notes, "ARC-IC is among these choices: its figures are not confirmed")
	}
	if said := sharesSentence(y); said != "" {
		t.Notes = append(t.Notes, said)
	}
	for _, p := range y.Operation.ByPerson {
		low, quarter := answer.Dollars(p.Percentiles[poor]), answer.Dollars(p.Percentiles[quarterLow])
		t.Rows = append(t.Rows, []string{p.ID, wording.Whole(&low), wording.Whole(&quarter), wording.Whole(&p.MeanAfterLimit), p.PaymentNotBefore, fmt.Sprint(p.TaxYear)})
	}
	r.table(t)
}

// run adds what these figures are computed from.
func (r *Report) run(c answer.Comparison) {
	stress := ""
	if c.Model.Note != "" {
		stress = fmt.Sprintf(", model %s, tail %s", c.Model.Name, c.Model.Tail)
	}
	r.text(fmt.Sprintf("Run: today %s, market %s, seed %d, %d draws%s.", c.Today, c.Market.AsOf, c.Seed, c.Draws, stress))
	r.caution(c.Caution)
}

// middleSentences are the middleSentence of every program, in their order.
func middleSentences(c answer.CommodityPart) string {
	var said []string
	for _, one := range c.Programs {
		said = append(said, middleSentence(programName(c, one.Program), one.Figures))
	}
	return wording.Sentences(said...)
}

// middleSentence gives the middle outcome between poor and good, and where it is zero,
// what the outcomes above it are.
func middleSentence(name string, p *answer.ProgramPart) string {
	if p == nil {
		return ""
	}
	text := fmt.Sprintf("%s: poor case %s, middle outcome %s, good case %s", name, percentile(poor)(p), percentile(middle)(p), percentile(good)(p))
	if p.Percentiles[middle] >= program.HalfCent || math.IsNaN(p.Percentiles[middle]) {
		return text + "."
	}
	for _, above := range []struct {
		place int
		words string
	}{{quarterHigh, "one in four"}, {twentieth, "one in twenty"}} {
		if d := answer.Dollars(p.Percentiles[above.place]); d >= program.HalfCent {
			return fmt.Sprintf("%s; %s above %s.", text, above.words, wording.Money(&d))
		}
	}
	return fmt.Sprintf("%s; pays in %s of 100.", text, wording.InHundred(p.ChanceOfPayment))
}

// Places of the 25th, 75th and 95th percentile in answer.Percentiles.
const quarterLow, quarterHigh, twentieth = 2, 4, 6
