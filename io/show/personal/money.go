package personal

import (
	"fmt"
	"math"

	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// answer says what the person is paid on average, as last elected and as the figures lean;
// with beside each average what beside makes of it.
func (r *reader) answer(beside func(*answer.PersonPart) string) string {
	y, last, leads := r.year.CropYear, r.under(answer.LastElected), r.under(answer.AsItLeans)
	switch {
	case last == nil && leads == nil:
		return fmt.Sprintf("What you are paid for %d is not known here: figures are missing.", y)
	case !r.paid():
		return fmt.Sprintf("Nothing is paid to you yourself for %d. If you are an entity, your owners are paid.", y)
	case higherOfBoth(r.year), r.alike():
		return fmt.Sprintf("On average you would be paid %s for %d%s.", amount(leads.MeanAfterLimit), y, beside(leads))
	case leads == nil:
		return fmt.Sprintf("As last elected, you would be paid %s on average for %d%s. How the crops lean is not known here.", amount(last.MeanAfterLimit), y, beside(last))
	case last == nil:
		return fmt.Sprintf("As the figures lean, you would be paid %s on average for %d%s. No last election is known here.", amount(leads.MeanAfterLimit), y, beside(leads))
	}
	return fmt.Sprintf("As last elected, you would be paid %s on average for %d%s. As the figures lean, it is %s%s.",
		amount(last.MeanAfterLimit), y, beside(last), amount(leads.MeanAfterLimit), beside(leads))
}

// averageAlone is answer without the middle case.
func (r *reader) averageAlone() string {
	said := r.answer(func(*answer.PersonPart) string { return "" })
	if r.paid() && r.alike() && !higherOfBoth(r.year) {
		said += " " + r.leansAsElected()
	}
	return said
}

// middle says beside an average what half of the outcomes pay less than, "" where past
// years are too few.
func middle(p *answer.PersonPart) string {
	switch at := p.Percentiles[answer.Half]; {
	case math.IsNaN(at):
		return ""
	case at < program.HalfCent:
		return "; at least half of outcomes pay nothing"
	default:
		return "; half of outcomes pay less than " + amount(answer.Dollars(at))
	}
}

// leansAsElected says that the figures lean nowhere else than to the last election.
func (r *reader) leansAsElected() string {
	for _, l := range r.lines {
		if l.OnRecord == nil || string(*l.OnRecord) != string(l.Leader) {
			return "The figures lean nowhere away from what was last elected."
		}
	}
	return "The figures lean to what was last elected."
}

// after says what has been taken out of the answer, and what its words mean.
func (r *reader) after() string {
	if !r.paid() {
		return ""
	}
	const out = "That is after your share, the payment limit and sequestration (a federal cut)."
	switch {
	case higherOfBoth(r.year):
		return out + " " + higherOf(r.year)
	case r.under(answer.AsItLeans) == nil:
		return out
	case r.alike():
		return out + " " + r.leansAsElected() + " They lean to the program that pays more on average, crop by crop."
	}
	return out + " The figures lean to the program that pays more on average, crop by crop."
}

func higherOf(y *answer.YearPart) string {
	return fmt.Sprintf("For %d the law pays the higher of PLC and ARC-CO on each crop, whatever was elected.", y.CropYear)
}

// amount writes dollars in a sentence: whole, with cents below $5.
func amount(d answer.Dollars) string {
	const centsBelow = 5
	if d > 0 && d < centsBelow {
		return wording.Money(&d)
	}
	return wording.Whole(&d)
}

// sure says how far the outcomes lie from the average, and what is not in the amounts.
func (r *reader) sure() (said []string) {
	if !r.paid() {
		return nil
	}
	last, leads := r.under(answer.LastElected), r.under(answer.AsItLeans)
	switch {
	case last == nil || r.alike() || higherOfBoth(r.year):
		if leads != nil {
			said = append(said, outcomes("", leads))
		}
	case leads == nil:
		said = append(said, outcomes("", last))
	default:
		said = append(said, outcomes("As last elected: ", last), outcomes("As the figures lean: ", leads))
	}
	for _, name := range []answer.UnderName{answer.LastElected, answer.AsItLeans} {
		said = append(said, r.notIncluded(name))
	}
	return append(said, r.individual(), r.limit())
}

// outcomes says what 10 and 25 of 100 outcomes pay less than, and 10 of 100 more than; the
// middle stands beside the average.
func outcomes(under string, p *answer.PersonPart) string {
	at := p.Percentiles
	if math.IsNaN(at[answer.Tenth]) || math.IsNaN(at[answer.Quarter]) {
		return wording.Capital(under + "past years are too few to say what 10 of 100 outcomes pay.")
	}
	said := fmt.Sprintf("10 of 100 outcomes pay you less than %s.", amount(answer.Dollars(at[answer.Tenth])))
	switch {
	case at[answer.Half] < program.HalfCent:
		said = "at least 50 of 100 outcomes pay you nothing."
	case at[answer.Quarter] < program.HalfCent:
		said = "at least 25 of 100 outcomes pay you nothing."
	case at[answer.Tenth] < program.HalfCent:
		said = "at least 10 of 100 outcomes pay you nothing."
	}
	said = wording.Capital(under + said)
	if at[answer.Quarter] >= program.HalfCent {
		said += fmt.Sprintf(" 25 of 100 pay less than %s.", amount(answer.Dollars(at[answer.Quarter])))
	}
	if math.IsNaN(at[answer.Ninetieth]) || at[answer.Ninetieth] < program.HalfCent {
		return said
	}
	return said + fmt.Sprintf(" 10 of 100 pay more than %s.", amount(answer.Dollars(at[answer.Ninetieth])))
}

// notIncluded names the crops that an amount leaves out, "" for none.
func (r *reader) notIncluded(name answer.UnderName) string {
	crops := r.leftOut(name)
	switch {
	case len(crops) == 0:
		return ""
	case name == answer.AsItLeans:
		return "Not included as the figures lean, for want of a figure: " + someOf(crops, len(r.lines)) + "."
	}
	return "Not included as last elected, for want of an election or a figure: " + someOf(crops, len(r.lines)) + "."
}

// individual says that an unconfirmed ARC-IC figure is inside, "" for none.
func (r *reader) individual() string {
	u := r.year.Operation.UnderElections(answer.LastElected)
	for _, l := range r.lines {
		if u != nil && u.Choices[l.Farm][l.Commodity] == farm.ARCIC {
			return fmt.Sprintf("Farm %s is in ARC-IC as last elected. That figure is not confirmed: ask the county office.", wording.Farm(l.Farm, r.year.Farms))
		}
	}
	return ""
}

// limit says how often the person reaches a payment limit, "" for never.
func (r *reader) limit() string {
	for _, name := range []answer.UnderName{answer.LastElected, answer.AsItLeans} {
		if p := r.under(name); p != nil && p.ChanceOfLimit > 0 {
			return fmt.Sprintf("You reach the payment limit of %s in %s of 100 outcomes. On average it keeps back %s.", wording.Whole(&p.Limit), wording.InHundred(p.ChanceOfLimit), amount(p.WithheldLimit))
		}
	}
	return ""
}
