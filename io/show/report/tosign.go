package report

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfToSign is the list of elections of an operation by itself: for the counter and
// for the file. With changesOnly a year that asks for no new election lists only the
// lines that differ from the record.
func OfToSign(c answer.Comparison, changesOnly bool) Report {
	var r Report
	r.heading(1, "What to sign")
	for _, y := range c.CropYears {
		r.heading(2, fmt.Sprintf("Crop year %d", y.CropYear))
		r.toSign(y.ToSign, y.CropYear, changesOnly)
		r.people(y)
	}
	r.run(c)
	return r
}

// toSign lists who leads beside what is on record, and who decides.
func (r *Report) toSign(s answer.ToSign, y crop.CropYear, changesOnly bool) {
	if s.NewElection {
		r.text(fmt.Sprintf("Every farm needs a new election for crop year %d, also where the choice is the one on record (%s).", y, s.Source))
	}
	shown, left := s.Lines, 0
	if changesOnly && !s.NewElection {
		shown = slices.DeleteFunc(slices.Clone(s.Lines), func(l answer.SignLine) bool { return !l.Differs })
		left = len(s.Lines) - len(shown)
	}
	t := Table{
		Title:   fmt.Sprintf("What to sign, crop year %d; margin in USD per base acre on average", y),
		Columns: []string{"farm and commodity", "lead", "margin", "highest*", "on record"},
		Notes:   []string{highestNote},
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
	r.notes(signers(shown, y))
}

const highestNote = "* the program with the highest average after limits, over the whole operation; (other): not what is on record"

// signCells are lead, margin, the highest average, and the record against it.
func signCells(l answer.SignLine) []string {
	record, margin, highest := "none", "unknown", "unknown"
	if l.Margin != nil {
		margin = ahead(float64(*l.Margin))
	}
	if l.Highest != "" {
		highest = string(l.Highest)
	}
	if l.OnRecord != nil {
		record = string(*l.OnRecord) + map[bool]string{true: " (other)", false: " (same)"}[l.Differs]
	}
	return []string{leadWords[l.Leader], margin, highest, record}
}

// signers says for each farm who decides and whether it can still be signed.
func signers(lines []answer.SignLine, y crop.CropYear) (said []string) {
	for _, l := range lines {
		text := "Farm " + l.Farm + ": " + whoSigns(l) + " " + contractWords(l.Contract, y)
		if !slices.Contains(said, text) {
			said = append(said, text)
		}
	}
	return said
}

// whoSigns names the producers who decide together.
func whoSigns(l answer.SignLine) string {
	var words []string
	for _, s := range l.Signers {
		words = append(words, fmt.Sprintf("%s (%s)", s.ID, percent(s.Share)))
	}
	if l.Others > 0 {
		words = append(words, fmt.Sprintf("others outside this file (%s)", percent(l.Others)))
	}
	if len(words) == 1 {
		return words[0] + " decides and signs."
	}
	return joined(words) + " share in the crop: all of them have to agree and sign."
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

// people says what reaches whom and when at the earliest, the poor cases first.
func (r *Report) people(y answer.YearPart) {
	if len(y.Operation.ByPerson) == 0 {
		return
	}
	t := Table{
		Title:   fmt.Sprintf("For a lender: crop year %d by person under the choices with the highest average, USD after share, limit and sequestration", y.CropYear),
		Columns: []string{"person", "1 in 10 lower", "1 in 4 lower", "on average", "not before", "tax year"},
		Notes:   []string{"if signed; what an entity is paid stands with its owners; the average is not money to plan with"},
	}
	for _, p := range y.Operation.ByPerson {
		low, quarter := answer.Dollars(p.Percentiles[poor]), answer.Dollars(p.Percentiles[quarterLow])
		t.Rows = append(t.Rows, []string{p.ID, whole(&low), whole(&quarter), whole(&p.MeanAfterLimit), p.PaymentNotBefore, fmt.Sprint(p.TaxYear)})
	}
	r.table(t)
}

// run says from what these figures come.
func (r *Report) run(c answer.Comparison) {
	stress := ""
	if c.Model.Note != "" {
		stress = fmt.Sprintf(", model %s, tail %s", c.Model.Name, c.Model.Tail)
	}
	r.text(fmt.Sprintf("Run: today %s, market %s, seed %d, %d draws%s.", c.Today, c.Market.AsOf, c.Seed, c.Draws, stress))
	r.caution(c.Caution)
}

// middleSentence tells the middle outcome between poor and good, and where it is
// zero, what lies above.
func middleSentence(name string, p *answer.ProgramPart) string {
	if p == nil {
		return ""
	}
	above := []struct {
		place int
		words string
	}{{quarterHigh, "one in four"}, {good, "one in ten"}, {twentieth, "one in twenty"}}
	if m := answer.Dollars(p.Percentiles[middle]); m >= 0.005 || math.IsNaN(float64(m)) {
		return fmt.Sprintf("%s: poor case %s, middle outcome %s, good case %s.", name, percentile(poor)(p), money(&m), percentile(good)(p))
	}
	for _, a := range above {
		if d := answer.Dollars(p.Percentiles[a.place]); d >= 0.005 {
			return fmt.Sprintf("%s: middle outcome $0; %s above %s.", name, a.words, money(&d))
		}
	}
	return fmt.Sprintf("%s: middle outcome $0; pays in %s of 100.", name, inHundred(p.ChanceOfPayment))
}

// Places of more percentiles in answer.Percentiles.
const quarterLow, quarterHigh, twentieth = 2, 4, 6

// lines of text joined where there is something to say.
func sentences(all ...string) string {
	return strings.Join(slices.DeleteFunc(all, func(s string) bool { return s == "" }), " ")
}
