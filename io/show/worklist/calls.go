package worklist

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// OfCalls lists the people of an answer, one after the other: their farms, what each would
// be paid as last elected and under the choices that people typed, with whom they must
// agree, and what of signatures and papers is not recorded in the file.
func OfCalls(c answer.Comparison) report.Report {
	var out report.Report
	out.Add(report.Heading{Level: 1, Text: "Calls by signer"})
	for _, y := range c.CropYears {
		if len(c.CropYears) > 1 {
			out.Add(report.Heading{Level: 2, Text: fmt.Sprintf("Crop year %d", y.CropYear)})
		}
		out.Add(report.Lead(counts(y)), report.Text(nothingFilledIn), report.Banner(wording.ToBePaid(y.Standing, y.CropYear)+" "+wording.LastDay(y.Standing, c.Today)))
		for _, id := range peopleOf(y) {
			out.Add(call(y, id)...)
		}
		out.Add(report.Text(strangers(y)))
		out.Add(cashRent(y)...)
	}
	out.Add(report.Small("Dollars are after shares, the payment limit and sequestration, if all contracts are signed. In a poor case, 1 outcome in 10 is lower. An entity's payment is listed under its owners; what is left out for it is left out for them. The average is not money to count on."))
	return withEnd(out, c)
}

// peopleOf are those who sign, in the order of the answer, then those who are only paid.
func peopleOf(y answer.YearPart) (ids []string) {
	add := func(id string) {
		if !slices.Contains(ids, id) {
			ids = append(ids, id)
		}
	}
	for _, name := range sets {
		if u := y.Operation.UnderElections(name); u != nil {
			for _, p := range u.ByPerson {
				add(p.ID)
			}
		}
	}
	for _, l := range y.Standing.Lines {
		for _, s := range l.Signers {
			add(s.ID)
		}
	}
	return ids
}

// sets are the sets of elections that a person's dollars are shown under.
var sets = []answer.UnderName{answer.LastElected, answer.TypedChoice}

// Call is what a list of calls says of one person of an operation beside dollars, a
// sentence each.
type Call struct {
	Lines  []answer.StandingLine // in which the person has a share
	Agree  []string              // with whom on which farms
	Signed []string              // on which farms the signature is noted, and on which not
	Papers string                // "" of a person who is no producer of the file
}

// CallOf returns the call of a person.
func CallOf(y answer.YearPart, id string) Call {
	lines := linesOf(y, id)
	return Call{Lines: lines, Agree: circles(y, lines, id), Signed: signatures(y, lines, id), Papers: papers(y, id)}
}

// call is what is told of one person.
func call(y answer.YearPart, id string) []report.Block {
	one := CallOf(y, id)
	said := report.List{}
	point := func(text string) {
		if text != "" {
			said = append(said, report.Point{Text: text})
		}
	}
	owns := ownedBy(y, id)
	if len(one.Lines) == 0 {
		through := "an entity"
		if len(owns) > 0 {
			through = wording.Joined(owns)
		}
		point("No own share in a crop: paid through " + through + ", which signs for its farms.")
	}
	if point(owners(y, id)); len(one.Lines) > 0 && len(owns) > 0 {
		point("Part owner of " + wording.Joined(owns) + ".")
	}
	for _, text := range append(one.Agree, one.Signed...) {
		point(text)
	}
	point(one.Papers)
	return []report.Block{report.Heading{Level: 3, Text: id}, dollars(y, id), said}
}

// owners says who owns an entity; "" of others, and where the file names no owner.
func owners(y answer.YearPart, id string) string {
	i := slices.IndexFunc(y.Standing.Entities, func(e answer.EntityPart) bool { return e.ID == id })
	if i < 0 {
		return ""
	}
	var names []string
	rest := answer.Chance(1)
	for _, m := range y.Standing.Entities[i].Members {
		names, rest = append(names, fmt.Sprintf("%s (%s)", m.ID, wording.Percent(m.Share))), rest-m.Share
	}
	if rest > crop.Noise {
		names = append(names, fmt.Sprintf("%s (%s)", outside, wording.Percent(rest)))
	}
	return "Owned by " + wording.Joined(names) + "."
}

// ownedBy are the entities of which a person is an owner.
func ownedBy(y answer.YearPart, id string) (names []string) {
	for _, e := range y.Standing.Entities {
		if slices.ContainsFunc(e.Members, func(m answer.MemberPart) bool { return m.ID == id }) {
			names = append(names, e.ID)
		}
	}
	return names
}

// linesOf are the lines in which a person has a share.
func linesOf(y answer.YearPart, id string) (lines []answer.StandingLine) {
	for _, l := range y.Standing.Lines {
		if slices.ContainsFunc(l.Signers, func(s answer.Signer) bool { return s.ID == id }) {
			lines = append(lines, l)
		}
	}
	return lines
}

// dollars is what a person would be paid, after limits.
func dollars(y answer.YearPart, id string) report.Grid {
	t := report.Grid{Columns: []report.Column{{Head: fmt.Sprintf("dollars for %d", y.CropYear), Left: true}, {Head: "average"}, {Head: "poor case"}}}
	for _, name := range sets {
		row := []string{map[answer.UnderName]string{answer.LastElected: "as last elected", answer.TypedChoice: "under the choices typed here"}[name], "unknown", "unknown"}
		u := y.Operation.UnderElections(name)
		if u == nil && name == answer.TypedChoice {
			row[1], row[2] = "no choice typed", ""
		}
		if u != nil {
			for _, p := range u.ByPerson {
				if p.ID == id {
					row[1] = wording.Whole(&p.MeanAfterLimit)
					if low := answer.Dollars(p.Percentiles[answer.Tenth]); !math.IsNaN(float64(low)) {
						row[2] = wording.Whole(&low)
					}
				}
			}
		}
		t.Rows = append(t.Rows, row)
		if left := leftOut(y, u, id); left != "" {
			t.Notes = append(t.Notes, wording.Capital(row[0])+", without "+left+".")
		}
	}
	return t
}

// mostNamed is the most farms and crops that a note names: the list of elections has all.
const mostNamed = 6

// leftOut names the farms and crops of a person that are in no figure of a set, or counts
// them.
func leftOut(y answer.YearPart, u *answer.UnderPart, id string) string {
	var names []string
	lines := linesOf(y, id)
	for _, l := range lines {
		if u != nil && slices.Contains(u.LeftOut, l.Farm+" "+string(l.Commodity)) {
			names = append(names, wording.Farm(l.Farm, y.Farms)+" "+l.Commodity.Name())
		}
	}
	if len(names) > mostNamed {
		return fmt.Sprintf("%d of %d farms and crops", len(names), len(lines))
	}
	return wording.Joined(names)
}

// ByGroup says something of each group of lines, in the order of their first.
func ByGroup(lines []answer.StandingLine, group func(answer.StandingLine) string, say func(group string, of []answer.StandingLine) string) (said []string) {
	of := make([]string, len(lines))
	var order []string
	for i, l := range lines {
		if of[i] = group(l); !slices.Contains(order, of[i]) {
			order = append(order, of[i])
		}
	}
	if len(order) == 1 { // most people
		return []string{say(order[0], lines)}
	}
	for _, g := range order {
		var some []answer.StandingLine
		for i, l := range lines {
			if of[i] == g {
				some = append(some, l)
			}
		}
		said = append(said, say(g, some))
	}
	return said
}

// FarmNumbers are the farms of some lines, each once.
func FarmNumbers(y answer.YearPart, lines []answer.StandingLine) (numbers []string) {
	for _, l := range lines {
		if number := wording.Farm(l.Farm, y.Farms); !slices.Contains(numbers, number) {
			numbers = append(numbers, number)
		}
	}
	return numbers
}

// circles says for each circle of people on which farms they decide together.
func circles(y answer.YearPart, lines []answer.StandingLine, id string) []string {
	others := func(l answer.StandingLine) string {
		return wording.Joined(slices.DeleteFunc(agree(l), func(name string) bool { return name == id }))
	}
	return ByGroup(lines, others, func(circle string, of []answer.StandingLine) string {
		if circle == "" {
			return onFarms(FarmNumbers(y, of)) + ": nobody else has to agree."
		}
		return onFarms(FarmNumbers(y, of)) + ": must agree with " + circle + "."
	})
}

// signatures says on which farms a person's signature is noted, and on which not.
func signatures(y answer.YearPart, lines []answer.StandingLine, id string) []string {
	noted := func(l answer.StandingLine) string {
		return wording.Signed(l.Signers[slices.IndexFunc(l.Signers, func(s answer.Signer) bool { return s.ID == id })])
	}
	return ByGroup(lines, noted, func(state string, of []answer.StandingLine) string {
		farms := onFarms(FarmNumbers(y, of))
		if state == wording.NotRecorded {
			farms = "Signature on " + strings.ToLower(farms[:1]) + farms[1:]
		}
		return farms + ": " + state + "."
	})
}

// papers says which papers of a producer are noted, and which are not; "" of a person who is
// no producer of the file.
func papers(y answer.YearPart, id string) string {
	if y.Standing.Papers == nil {
		return "Papers: " + wording.NotRecorded + "."
	}
	i := slices.IndexFunc(y.Standing.Papers, func(p answer.PapersPart) bool { return p.ID == id })
	if i < 0 {
		return ""
	}
	of := y.Standing.Papers[i]
	by := map[farm.Noted][]string{}
	for _, p := range farm.Papers() {
		if noted := of.Noted[p]; noted != farm.Unknown || p != farm.MembersPaper || of.Kind != farm.Person {
			by[noted] = append(by[noted], p.Name())
		}
	}
	var said []string
	for _, one := range []struct {
		noted farm.Noted
		words string
	}{{farm.Yes, "there"}, {farm.No, "not there"}, {farm.Unknown, wording.NotRecorded}} {
		if len(by[one.noted]) > 0 {
			said = append(said, "Papers "+one.words+": "+wording.Joined(by[one.noted])+".")
		}
	}
	return strings.Join(said, " ")
}

// strangers names the farms on which people outside the file must agree too.
func strangers(y answer.YearPart) string {
	var farms []string
	for _, l := range y.Standing.Lines {
		if number := wording.Farm(l.Farm, y.Farms); l.Others > 0 && !slices.Contains(farms, number) {
			farms = append(farms, number)
		}
	}
	if len(farms) == 0 {
		return ""
	}
	return onFarms(farms) + ": people outside this file have a share too, and must agree."
}
