package personal

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// firstDay is the first day on which a year's crops can be paid, "" where it is not known.
func firstDay(y *answer.YearPart) string {
	for i := range y.Operation.Under {
		if people := y.Operation.Under[i].ByPerson; len(people) > 0 {
			return people[0].PaymentNotBefore
		}
	}
	return ""
}

// inARCIC are the farms that have ARC-IC in the choices with the highest average.
func inARCIC(y *answer.YearPart) (numbers []string) {
	for i := range y.Farms {
		if key := y.Farms[i].Farm; slices.Contains(slices.Collect(maps.Values(y.Operation.HighestMean[key])), farm.ARCIC) {
			numbers = append(numbers, wording.Farm(key, y.Farms))
		}
	}
	return numbers
}

func onlyFarms(numbers []string) string {
	if len(numbers) == 1 {
		return "farm " + numbers[0]
	}
	return "farms " + wording.Joined(numbers)
}

// tableNote says what the words of the tables mean, and which year pays the higher of both.
func tableNote(c *answer.Comparison) string {
	said := "PLC is Price Loss Coverage, ARC-CO is Agriculture Risk Coverage, county. Earned is after each person's share. "
	if anyBarred(c) {
		said += "Withheld is sequestration, what the payment limit keeps back and all of a person barred by the income limit. "
	} else {
		said += "Withheld is sequestration and what the payment limit keeps back. "
	}
	said += "Sequestration is a federal cut: " + cuts(c) + "."
	said += " The figures lean to the program that pays more on average, crop by crop. Either way: both are the same."
	for at := range c.CropYears {
		if y := &c.CropYears[at]; higherOfBoth(y) {
			said += fmt.Sprintf(" Higher program: for %d the law pays the higher of the two programs, whatever was elected, if the farm signed.", y.CropYear)
		}
	}
	return said
}

// cuts writes sequestration with its standing, years with the same together: "5.7 percent
// for 2025 and 2026, 5.7 percent for 2027 (projected)".
func cuts(c *answer.Comparison) string {
	var all doubts
	for at := range c.CropYears {
		o := &c.CropYears[at].Operation
		all.add(c.CropYears[at].CropYear, percent(o.Sequestration)+" for %s"+marked(o.SequestrationStatus))
	}
	return all.joined()
}

// marked writes a status behind a figure that is not final or not confirmed, else "".
func marked(s crop.Status) string {
	if s.Marked() {
		return " (" + words(s) + ")"
	}
	return ""
}

// joined lists figures that each hold for some years.
func (all doubts) joined() string {
	var parts []string
	for _, d := range all {
		parts = append(parts, fmt.Sprintf(d.said, wording.Joined(d.years)))
	}
	return strings.Join(parts, ", ")
}

// anyBarred reports whether somebody is paid nothing because of average income.
func anyBarred(c *answer.Comparison) bool {
	for at := range c.CropYears {
		for _, f := range c.CropYears[at].Farms {
			if slices.ContainsFunc(f.Flags, func(f answer.Flag) bool { return f.Code == "income_over_limit" }) {
				return true
			}
		}
	}
	return false
}

// whenAndIf says when the money can come and what it hangs on.
func whenAndIf(c *answer.Comparison) (said []string) {
	var days []string
	begun := ""
	for at := range c.CropYears {
		y := &c.CropYears[at]
		day := firstDay(y)
		if day == "" {
			continue
		}
		days = append(days, fmt.Sprintf("%s or later for %d", wording.Date(day), y.CropYear))
		if day <= c.Today {
			begun = fmt.Sprint(y.CropYear)
		}
	}
	if len(days) > 0 {
		said = append(said, "Payments come "+wording.Joined(days)+". What is paid in a fall is income of that tax year.")
		if begun != "" {
			said = append(said, "Some of the money for "+begun+" may be paid already.")
		}
	}
	for at := range c.CropYears {
		y := &c.CropYears[at]
		if y.Standing.NewElection {
			said = append(said, wording.ToBePaid(y.Standing, y.CropYear))
		}
	}
	return append(append(said, signatures(c)...), contracts(c)...)
}

// signatures counts for each crop year the signatures on elections that the file notes; a
// year without any is passed over.
func signatures(c *answer.Comparison) (said []string) {
	for at := range c.CropYears {
		y, signed, all := &c.CropYears[at], 0, map[string]bool{}
		for i := range y.Standing.Lines {
			l := &y.Standing.Lines[i]
			for _, s := range l.Signers {
				if key := l.Farm + " " + s.ID; !all[key] {
					if all[key] = true; s.Signed == farm.Yes {
						signed++
					}
				}
			}
		}
		if signed > 0 {
			said = append(said, fmt.Sprintf("Elections for %d: %d of %d signatures are recorded here.", y.CropYear, signed, len(all)))
		}
	}
	return said
}

// contracts says on which farms a contract is missed or not given as signed.
func contracts(c *answer.Comparison) (said []string) {
	var open doubts
	for at := range c.CropYears {
		y := &c.CropYears[at]
		in := map[farm.Contract][]string{}
		for i := range y.Farms {
			f := &y.Farms[i]
			in[f.Contract] = append(in[f.Contract], wording.Farm(f.Farm, y.Farms))
		}
		if farms := in[farm.Missed]; len(farms) > 0 {
			said = append(said, onFarms(farms)+": "+wording.ContractState(farm.Missed, y.CropYear))
		}
		farms := onlyFarms(in[farm.Open])
		switch n := len(in[farm.Open]); {
		case n > mostNamed && n == len(y.Farms):
			farms = fmt.Sprintf("all %d farms", n)
		case n > mostNamed:
			farms = fmt.Sprintf("%d of %d farms", n, len(y.Farms))
		}
		asked := "contract"
		if y.Standing.NewElection {
			asked = "contract and election"
		}
		switch {
		case len(in[farm.Open]) == 0:
		case known(y.Standing.LastDay) && y.Standing.LastDay < c.Today:
			said = append(said, fmt.Sprintf("Sign-up for %d ended %s. The file does not say whether %s signed.", y.CropYear, wording.Date(y.Standing.LastDay), farms))
		default:
			open.add(y.CropYear, "Not yet signed for %s: "+asked+" of "+farms+". "+wording.LastDay(y.Standing, c.Today))
		}
	}
	for _, d := range open {
		said = append(said, fmt.Sprintf(d.said, wording.Joined(d.years)))
	}
	return said
}

// depends says what moves the payments, and how often a limit cuts them.
func depends(c *answer.Comparison, people []string, withARCIC bool) []string {
	said := []string{"The payments follow national prices and county yields, not this borrower's harvest. One year of low prices moves all farms together."}
	reached := false
	for at := range c.CropYears {
		y := &c.CropYears[at]
		for _, id := range people {
			r := readerOf(c, id, at)
			for _, p := range []*answer.PersonPart{r.under(answer.LastElected), r.under(answer.AsItLeans)} {
				if p != nil && p.ChanceOfLimit > 0 {
					reached = true
					said = append(said, limitReached(id, y.CropYear, p))
					break
				}
			}
		}
	}
	for at := range c.CropYears {
		if withARCIC && len(inARCIC(&c.CropYears[at])) > 0 {
			said[0] += " ARC-IC follows the farm's own yields too."
			break
		}
	}
	limit := "Payment limit a person: " + limits(c, people) + "."
	if !reached {
		limit += " Nobody reaches it in any outcome."
	}
	return append(said, limit)
}

// limits writes the payment limits of people with their standing, years with the same
// together.
func limits(c *answer.Comparison, people []string) string {
	var all doubts
	for _, r := range everyReader(c, people) {
		if p := r.highest(); p != nil {
			all.add(r.year.CropYear, wording.Whole(&p.Limit)+" for %s"+marked(p.LimitStatus))
		}
	}
	return all.joined()
}

func limitReached(id string, y crop.CropYear, p *answer.PersonPart) string {
	return fmt.Sprintf("%s reaches the payment limit of %s in %s of 100 outcomes for %d. It keeps back %s on average.",
		wording.Capital(called(id)), wording.Whole(&p.Limit), wording.InHundred(p.ChanceOfLimit), y, wording.Whole(&p.WithheldLimit))
}

// notIncluded says what is left out of the figures.
func notIncluded(c *answer.Comparison, withARCIC bool) (said []string) {
	var all doubts
	for at := range c.CropYears {
		y := &c.CropYears[at]
		for i := range y.Farms {
			f := &y.Farms[i]
			if f.ARCIC != nil && f.ARCIC.Missing == "" && f.ARCIC.CanMatter && !withARCIC && !higherOfBoth(y) {
				all.add(y.CropYear, "ARC-IC may matter on farm "+wording.Farm(f.Farm, y.Farms)+" for %s. Its figures are not confirmed and are not included.")
			}
		}
		for i := range y.Operation.Under {
			u := &y.Operation.Under[i]
			switch {
			case len(u.LeftOut) == 0:
			case u.Elections == answer.TypedChoice:
				said = append(said, fmt.Sprintf("Not included under the choices typed here for %d: %s. No choice is typed, or a figure is missing.", y.CropYear, leftOut(u.LeftOut, y)))
			case u.Mean == nil:
				all.add(y.CropYear, "There is no amount "+setNames[u.Elections]+" for %s, for want of elections or figures.")
			default:
				all.add(y.CropYear, "Not included "+setNames[u.Elections]+" for %s: "+leftOut(u.LeftOut, y)+". An election or a figure is missing.")
			}
		}
	}
	for _, d := range all {
		said = append(said, fmt.Sprintf(d.said, wording.Joined(d.years)))
	}
	return append(said, "One-time bridge payments are not included. They have a limit of their own.")
}

// everyReader are all people in all crop years.
func everyReader(c *answer.Comparison, people []string) (all []*reader) {
	for at := range c.CropYears {
		for _, id := range people {
			all = append(all, readerOf(c, id, at))
		}
	}
	return all
}

// setNames writes sets of elections in a sentence.
var setNames = map[answer.UnderName]string{answer.LastElected: "as last elected", answer.AsItLeans: "as the figures lean"}

// mostNamed is the number of farms up to which each is named.
const mostNamed = 4

// leftOut names crops of a list that lack a figure or an election.
func leftOut(keys []string, y *answer.YearPart) string {
	var crops []string
	for i := range y.Standing.Lines {
		l := &y.Standing.Lines[i]
		if slices.Contains(keys, l.Farm+" "+string(l.Commodity)) {
			crops = append(crops, onFarm(y, l))
		}
	}
	return someOf(crops, len(y.Standing.Lines))
}
