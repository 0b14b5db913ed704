package personal

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// programsPay says what the programs are.
const programsPay = "PLC (Price Loss Coverage) pays when the national price falls below its reference price. ARC-CO (Agriculture Risk Coverage, county) pays when the county's yield times the price falls below the county's guarantee."

// staysWithLand says whose the base is.
const staysWithLand = "Base acres belong to the land. They stay with it, whichever program is elected."

// crops says where the base is and whose, then of each crop which program
// pays more how often and by how much; one point a crop.
func (r *reader) crops() (said []string) {
	if len(r.lines) > 0 {
		said = append(said, wording.Sentences(r.inCounties(), staysWithLand))
	}
	for _, l := range r.lines {
		text := fmt.Sprintf("%s: your share is %s.", wording.Capital(onFarm(r.year, l.StandingLine)), percent(l.share))
		switch odds := wording.Odds(*l.crop); {
		case higherOfBoth(r.year):
		case odds == "":
			text += " The programs cannot be compared, because a figure is missing."
		default:
			text += " " + wording.Sentences(odds, beforeShare(wording.Average(*l.crop, nil)), verdict(&l))
		}
		said = append(said, text)
	}
	return said
}

// beforeShare says of a margin what is not yet taken out of it.
func beforeShare(average string) string {
	if ahead, is := strings.CutSuffix(average, " ahead."); is {
		return ahead + " ahead, before your share and any limit."
	}
	return average
}

// verdict says how a crop leans and what was last elected.
func verdict(l *line) string {
	last := " Last elected: " + wording.LastElected(l.OnRecord) + "."
	switch {
	case l.Leader == answer.Close:
		return "That is a toss-up." + last
	case l.Leader == answer.LittleChance:
		return "Little is at stake." + last
	case l.Leader == answer.None:
		return strings.TrimSpace(last)
	case l.OnRecord != nil && string(*l.OnRecord) == string(l.Leader):
		return "It leans " + string(l.Leader) + ", as last elected."
	}
	return "It leans " + string(l.Leader) + "." + last
}

// decision says who must agree with the person, farm by farm, and what the year's law asks.
func (r *reader) decision() (said []string) {
	if len(r.lines) == 0 {
		return []string{"You are paid through an entity. Its own sheet shows its crops and who decides on them."}
	}
	y := r.year.CropYear
	if !higherOfBoth(r.year) {
		said = append(r.agree(), wording.WithoutElection(r.year.Standing, y))
	}
	said = append(append(said, r.choices()...), r.signed()...)
	for _, state := range []farm.Contract{farm.Signed, farm.Missed} {
		if farms := r.farmsWith(state); len(farms) > 0 {
			said = append(said, onFarms(farms)+": "+lower(wording.ContractState(state, y)))
		}
	}
	if len(r.lines) > mostInSentences { // else it stands with the crops
		said = append(said, staysWithLand)
	}
	return said
}

// lawAsks says what the year's law asks before a farm is paid, and by when.
func (r *reader) lawAsks() string {
	s, y := &r.year.Standing, r.year.CropYear
	asks := wording.ToBePaid(*s, y)
	if higherOfBoth(r.year) {
		asks = fmt.Sprintf("No election changes what is paid for %d. Only a farm with a signed contract is paid.", y)
	}
	return asks + " " + signUp(s, r.year, r.today)
}

// signUp says by when a farm elects and signs, or that the day has passed.
func signUp(s *answer.Standing, y *answer.YearPart, today string) string {
	if known(s.LastDay) && s.LastDay < today {
		return fmt.Sprintf("Sign-up for %d ended %s.", y.CropYear, wording.Date(s.LastDay))
	}
	return wording.LastDay(*s, today)
}

// known reports whether a last day is one.
func known(day string) bool { return day != "" && day != "unknown" }

// farmsWith are the person's farms whose contract is in a state.
func (r *reader) farmsWith(state farm.Contract) (numbers []string) {
	for _, l := range r.lines {
		if number := wording.Farm(l.Farm, r.year.Farms); l.Contract == state && !slices.Contains(numbers, number) {
			numbers = append(numbers, number)
		}
	}
	return numbers
}

// agree says for each circle of people on which farms they decide together.
func (r *reader) agree() (said []string) {
	var circles []string
	farms := map[string][]string{}
	for _, l := range r.lines {
		circle := strings.Join(r.others(l), "\n")
		if !slices.Contains(circles, circle) {
			circles = append(circles, circle)
		}
		if number := wording.Farm(l.Farm, r.year.Farms); !slices.Contains(farms[circle], number) {
			farms[circle] = append(farms[circle], number)
		}
	}
	for _, circle := range circles {
		where := onFarms(farms[circle])
		if circle == "" {
			said = append(said, where+": nobody else shares in the crop, so you decide.")
			continue
		}
		all, agree := append([]string{"you"}, strings.Split(circle, "\n")...), "all must agree and sign."
		if len(all) == 2 {
			agree = "both of you must agree on the election and sign."
		}
		said = append(said, where+": "+wording.Joined(all)+" share in the crop, so "+agree)
	}
	return said
}

// others stands for people outside the file.
const others = "people who are not in this file"

// others are those who share in a crop beside the person.
func (r *reader) others(l line) (names []string) {
	for _, s := range l.Signers {
		if s.ID != r.id {
			names = append(names, called(s.ID))
		}
	}
	if l.Others > 0 {
		names = append(names, others)
	}
	return names
}

// onFarms writes farms: "Farm 0417", "Farms 0417 and 1203".
func onFarms(numbers []string) string {
	if len(numbers) == 1 {
		return "Farm " + numbers[0]
	}
	return "Farms " + wording.Joined(numbers)
}

// lower puts the first letter of a sentence in lower case.
func lower(text string) string { return strings.ToLower(text[:1]) + text[1:] }

// when says when the money comes, then what later crop years average.
func (r *reader) when(later []*reader) (said []string) {
	for _, one := range append([]*reader{r}, later...) {
		p := one.under(answer.AsItLeans)
		if p == nil {
			p = one.under(answer.LastElected)
		}
		if p != nil && p.PaymentNotBefore != "" {
			text := wording.Payday(one.year.CropYear, p.PaymentNotBefore, p.TaxYear)
			if one.year.CropYear != r.year.CropYear {
				text += " " + one.averageAlone()
			}
			said = append(said, text)
		}
	}
	return said
}

// laterYears are the person's crop years after the first.
func laterYears(c *answer.Comparison, id string) (all []*reader) {
	for at := 1; at < len(c.CropYears); at++ {
		all = append(all, readerOf(c, id, at))
	}
	return all
}
