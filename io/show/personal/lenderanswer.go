package personal

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// averages says what a person averages by crop year as last elected, and in a poor case,
// then how both differ as the figures lean. Where nothing was elected in some year, all is
// as the figures lean.
func averages(c *answer.Comparison, id string) string {
	name := answer.LastElected
	for at := range c.CropYears {
		if r := readerOf(c, id, at); r.under(answer.LastElected) == nil && r.under(answer.AsItLeans) != nil {
			name = answer.AsItLeans
		}
	}
	var average, poor []string
	for at := range c.CropYears {
		y := &c.CropYears[at]
		p := readerOf(c, id, at).under(name)
		if p == nil {
			continue
		}
		average = append(average, fmt.Sprintf("%s for %d%s", wording.Whole(&p.MeanAfterLimit), y.CropYear, ifSigned(c, y)))
		poor = append(poor, low(p, answer.Tenth))
	}
	if len(average) == 0 {
		return wording.Capital(called(id)) + ": not known here, because figures are missing."
	}
	return wording.Sentences(
		fmt.Sprintf("%s, %s: %s on average.", wording.Capital(called(id)), setNames[name], wording.Joined(average)),
		fmt.Sprintf("Poor case (10 of 100 outcomes pay that or less): %s.", wording.Joined(poor)),
		asItLeans(c, id, name))
}

// ifSigned marks money of a year that is paid only to farms that have signed by a day that
// has passed, where the file does not say that all have.
func ifSigned(c *answer.Comparison, y *answer.YearPart) string {
	open := slices.ContainsFunc(y.Farms, func(f answer.FarmPart) bool { return f.Contract == farm.Open })
	if open && known(y.Standing.LastDay) && y.Standing.LastDay < c.Today {
		return " (if the farms signed)"
	}
	return ""
}

// asItLeans says how the average and the poor case differ as the figures lean, and where a
// higher average goes with lower poor cases; "" where nothing differs.
func asItLeans(c *answer.Comparison, id string, told answer.UnderName) string {
	var average, poor, worse []string
	for at := range c.CropYears {
		r, y := readerOf(c, id, at), c.CropYears[at].CropYear
		last, leads := r.under(answer.LastElected), r.under(answer.AsItLeans)
		if told == answer.AsItLeans || last == nil || leads == nil || higherOfBoth(r.year) || r.alike() {
			continue
		}
		average = append(average, fmt.Sprintf("%s for %d", wording.Whole(&leads.MeanAfterLimit), y))
		poor = append(poor, low(leads, answer.Tenth))
		if leads.MeanAfterLimit > last.MeanAfterLimit && poorer(leads, last) {
			worse = append(worse, fmt.Sprint(y))
		}
	}
	if len(average) == 0 {
		return ""
	}
	said := fmt.Sprintf("As the figures lean: %s on average, poor case %s.", wording.Joined(average), wording.Joined(poor))
	if len(worse) > 0 {
		said += " For " + wording.Joined(worse) + " the leaning choice has the higher average, but pays less in poor cases."
	}
	return said
}

// poorer reports whether one pays less than other in 1 outcome of 10, or as much there and
// less in 1 of 4, in whole dollars as they are written.
func poorer(one, other *answer.PersonPart) bool {
	for _, at := range []int{answer.Tenth, answer.Quarter} {
		a, b := dollars(answer.Dollars(one.Percentiles[at])), dollars(answer.Dollars(other.Percentiles[at]))
		if a != b {
			return a < b
		}
	}
	return false
}

// leansOtherwise names for each crop year the crops that lean otherwise than last elected.
func leansOtherwise(c *answer.Comparison) (said []string) {
	for at := range c.CropYears {
		y := &c.CropYears[at]
		if higherOfBoth(y) {
			continue
		}
		var moves doubts // with farms for years
		for i := range y.Standing.Lines {
			l := &y.Standing.Lines[i]
			if to, differs := leansTo(y, l); differs {
				moves.put(wording.Farm(l.Farm, y.Farms), l.Commodity.Name()+" on %s to "+string(to)+closely(l.Leader))
			}
		}
		if len(moves) > 0 {
			said = append(said, movesOf(y.CropYear, moves))
		}
	}
	return said
}

// closely marks a crop that only averages more under the other program.
func closely(l answer.Leader) string {
	if l == answer.Close || l == answer.LittleChance {
		return " (" + wording.Leads(l) + ")"
	}
	return ""
}

// leansTo is the program that a crop has as the figures lean, and whether another was last
// elected.
func leansTo(y *answer.YearPart, l *answer.StandingLine) (to farm.Program, differs bool) {
	leads := y.Operation.UnderElections(answer.AsItLeans)
	if leads == nil || l.OnRecord == nil {
		return "", false
	}
	to = leads.Choices[l.Farm][l.Commodity]
	return to, to != "" && to != *l.OnRecord
}

// movesOf lists crops by the program that they lean to, in sentences that are not long: "For
// 2026 the figures lean otherwise than last elected: wheat on 1203 to PLC." Of many farms it
// says how many.
func movesOf(y crop.CropYear, moves doubts) string {
	said := fmt.Sprintf("For %d the figures lean otherwise than last elected:", y)
	words := len(strings.Fields(said))
	for i, m := range moves {
		on := wording.Joined(m.years)
		if len(m.years) > mostNamed {
			on = fmt.Sprintf("%d farms", len(m.years))
		}
		move := " " + fmt.Sprintf(m.said, on)
		switch more := len(strings.Fields(move)); {
		case i == 0:
			words += more
		case words+more > longest:
			said, words = said+". Also:", 1+more
		default:
			said, words = said+",", words+more
		}
		said += move
	}
	return said + "."
}

// longest is the number of words of a sentence that people still read at once.
const longest = 25
