package personal

import (
	"fmt"
	"maps"
	"math"
	"slices"
	"time"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfLender is the sheet for a lender: what each person earns and is paid, October by
// October, as last elected and as the figures lean, poor cases beside the average. With
// ARC-IC it has the choices that hold it too, where the answer has any.
func OfLender(found answer.Comparison, withARCIC bool) report.Report {
	c := &found
	people := peopleOf(c)
	var out report.Report
	out.Blocks = append(out.Blocks, report.Heading{Level: 1, Text: "For a lender: PLC and ARC-CO payments for " + yearsOf(c) + " crops"})
	var said []string
	for _, id := range people {
		said = append(said, averages(c, id))
	}
	if len(people) == 0 {
		said = append(said, "What people are paid is not known here: figures are missing.")
	}
	out.Blocks = append(out.Blocks, points(said))
	for _, id := range people {
		out.Blocks = append(out.Blocks, octobers(c, id, withARCIC))
	}
	if len(people) > 0 {
		out.Blocks = append(out.Blocks, report.Small(tableNote(c)))
	}
	left := slices.Concat(part("When and if", whenAndIf(c)), part("Not inside", notInside(c, withARCIC)))
	right := slices.Concat(part("What it depends on", depends(c, people, withARCIC)), part("Not yet certain", uncertain(everyReader(c, people))))
	out.Blocks = append(out.Blocks, report.Beside{Left: left, Right: right})
	return withEnd(out, c, report.Text("The average is not money to count on, and nothing here is a commitment by USDA. This is no appraisal."))
}

// peopleOf are all who are paid in some crop year, in the order of the answer.
func peopleOf(c *answer.Comparison) (ids []string) {
	seen := map[string]bool{}
	for at := range c.CropYears {
		y := &c.CropYears[at]
		for _, u := range y.Operation.Under {
			for _, p := range u.ByPerson {
				if !seen[p.ID] && readerOf(c, p.ID, at).paid() {
					ids, seen[p.ID] = append(ids, p.ID), true
				}
			}
		}
	}
	return ids
}

func points(said []string) report.List {
	var all report.List
	for _, text := range said {
		all = append(all, report.Point{Text: text})
	}
	return all
}

// yearsOf lists the crop years of an answer: "2025, 2026 and 2027".
func yearsOf(c *answer.Comparison) string {
	var years []string
	for at := range c.CropYears {
		y := &c.CropYears[at]
		years = append(years, fmt.Sprint(y.CropYear))
	}
	return wording.Joined(years)
}

// averages says what a person averages by crop year as last elected, and in a poor case.
// Where nothing was elected it is as the figures lean.
func averages(c *answer.Comparison, id string) string {
	var average, poor []string
	name := answer.LastElected
	for at := range c.CropYears {
		if r := readerOf(c, id, at); r.under(answer.LastElected) == nil && r.under(answer.AsItLeans) != nil {
			name = answer.AsItLeans
		}
	}
	for at := range c.CropYears {
		y := &c.CropYears[at]
		p := readerOf(c, id, at).under(name)
		if p == nil {
			continue
		}
		average = append(average, fmt.Sprintf("%s for %d", wording.Whole(&p.MeanAfterLimit), y.CropYear))
		low := answer.Dollars(p.Percentiles[tenth])
		poor = append(poor, wording.Whole(&low))
	}
	if len(average) == 0 {
		return wording.Capital(called(id)) + ": not known here, because figures are missing."
	}
	return fmt.Sprintf("%s is paid %s on average, %s. Poor case (1 outcome in 10 is lower): %s.", wording.Capital(called(id)), wording.Joined(average), setNames[name], wording.Joined(poor))
}

// octobers is the table of one person.
func octobers(c *answer.Comparison, id string, withARCIC bool) report.Table {
	t := report.Table{
		Title:   wording.Capital(called(id)) + ": dollars on average, and what 1 in 4 and 1 in 10 outcomes stay below",
		Columns: []string{"paid from (crop year)", "earned", "withheld", "paid", "1 in 4", "1 in 10"},
	}
	for at := range c.CropYears {
		r := readerOf(c, id, at)
		last, leads := r.under(answer.LastElected), r.under(answer.AsItLeans)
		switch {
		case last == nil && leads == nil:
			t.Rows = append(t.Rows, r.row("figures are missing", nil))
		case higherOfBoth(r.year):
			t.Rows = append(t.Rows, r.row("higher of both", leads))
		case r.alike():
			t.Rows = append(t.Rows, r.row("either way", leads))
		default:
			t.Rows = append(t.Rows, r.row("as last elected"+r.unconfirmed(), last), r.row("as it leans", leads))
		}
		if farms := inARCIC(r.year); withARCIC && len(farms) > 0 {
			t.Rows = append(t.Rows, r.row("with ARC-IC on "+onlyFarms(farms)+", not confirmed", r.highest()))
		}
	}
	return t
}

// unconfirmed marks amounts as last elected that hold an ARC-IC figure.
func (r *reader) unconfirmed() string {
	if r.individual() == "" {
		return ""
	}
	return ", ARC-IC inside (not confirmed)"
}

// row is one line of the table; p is nil where figures are missing.
func (r *reader) row(elected string, p *answer.PersonPart) []string {
	name := fmt.Sprintf("(%d) %s", r.year.CropYear, elected)
	if day, err := time.Parse(time.DateOnly, firstDay(r.year)); err == nil {
		name = day.Format("Jan 2006") + " " + name
	}
	if p == nil {
		return []string{name, "unknown", "unknown", "unknown", "unknown", "unknown"}
	}
	earned, paid := dollars(p.Mean), dollars(p.MeanAfterLimit)
	withheld := earned - paid // of whole dollars, so that a reader's sum comes to the same
	return []string{name, wording.Whole(&earned), wording.Whole(&withheld), wording.Whole(&paid), whole(p.Percentiles[quarter]), whole(p.Percentiles[tenth])}
}

// dollars rounds an amount to the dollar.
func dollars(d answer.Dollars) answer.Dollars { return answer.Dollars(program.Round(float64(d), 0)) }

func whole(x float64) string {
	if math.IsNaN(x) {
		return "unknown"
	}
	d := answer.Dollars(x)
	return wording.Whole(&d)
}

// highest is what the person is paid under the choices with the highest average.
func (r *reader) highest() *answer.PersonPart {
	for i := range r.year.Operation.ByPerson {
		if p := &r.year.Operation.ByPerson[i]; p.ID == r.id {
			return p
		}
	}
	return nil
}

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

// tableNote says what withheld is, and which year pays the higher of both.
func tableNote(c *answer.Comparison) string {
	said := "Earned is after each person's share. Withheld is sequestration and what the payment limit keeps back."
	said += " The figures lean to the program that pays more on average, crop by crop. Either way: both are the same."
	for at := range c.CropYears {
		y := &c.CropYears[at]
		if higherOfBoth(y) {
			said += " " + higherOf(y)
		}
	}
	return said
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
		said = append(said, "Payments come "+wording.Joined(days)+". What is paid in a fall is income of that year.")
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
	return append(said, contracts(c)...)
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
		last := "The last day is not known here on " + wording.Date(c.Today) + "."
		if known(y.Standing.LastDay) {
			last = "The last day is " + wording.Date(y.Standing.LastDay) + "."
		}
		switch {
		case len(in[farm.Open]) == 0:
		case known(y.Standing.LastDay) && y.Standing.LastDay < c.Today:
			said = append(said, fmt.Sprintf("Sign-up for %d ended %s. The file does not say whether %s signed.", y.CropYear, wording.Date(y.Standing.LastDay), farms))
		default:
			open.add(y.CropYear, "Not signed yet for %s: "+farms+". "+last)
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
	if !reached {
		said = append(said, "Nobody reaches the payment limit in any outcome.")
	}
	return said
}

func limitReached(id string, y crop.CropYear, p *answer.PersonPart) string {
	return fmt.Sprintf("%s reaches the payment limit of %s in %s of 100 outcomes for %d. It keeps back %s on average.",
		wording.Capital(called(id)), wording.Whole(&p.Limit), wording.InHundred(p.ChanceOfLimit), y, wording.Whole(&p.WithheldLimit))
}

// notInside says what is left out of the figures.
func notInside(c *answer.Comparison, withARCIC bool) (said []string) {
	var all doubts
	for at := range c.CropYears {
		y := &c.CropYears[at]
		for i := range y.Farms {
			f := &y.Farms[i]
			if f.ARCIC != nil && f.ARCIC.Missing == "" && f.ARCIC.CanMatter && !withARCIC && !higherOfBoth(y) {
				all.add(y.CropYear, "ARC-IC may matter on farm "+wording.Farm(f.Farm, y.Farms)+" for %s. Its figures are not confirmed and are not inside.")
			}
		}
		for i := range y.Operation.Under {
			u := &y.Operation.Under[i]
			switch {
			case len(u.LeftOut) == 0:
			case u.Mean == nil:
				all.add(y.CropYear, "There is no amount "+setNames[u.Elections]+" for %s, for want of elections or figures.")
			default:
				all.add(y.CropYear, "Not in the amounts "+setNames[u.Elections]+" for %s: "+leftOut(u.LeftOut, y)+" (no election or no figure).")
			}
		}
	}
	for _, d := range all {
		said = append(said, fmt.Sprintf(d.said, wording.Joined(d.years)))
	}
	return append(said, "One-time bridge payments are not inside. They have a limit of their own.")
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

// mostNamed is the number of farms or crops up to which each is named.
const mostNamed = 4

// leftOut names crops of the list that have no figure or no election; of many it says how
// many.
func leftOut(keys []string, y *answer.YearPart) string {
	if len(keys) > mostNamed {
		return fmt.Sprintf("%d of %d crops", len(keys), len(y.Standing.Lines))
	}
	var crops []string
	for i := range y.Standing.Lines {
		l := &y.Standing.Lines[i]
		if slices.Contains(keys, l.Farm+" "+string(l.Commodity)) {
			crops = append(crops, onFarm(y, l))
		}
	}
	return wording.Joined(crops)
}
