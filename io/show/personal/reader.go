package personal

import (
	"cmp"
	"fmt"
	"slices"

	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// reader is one person in one crop year of an answer.
type reader struct {
	id    string
	today string
	year  *answer.YearPart
	lines []line // in which the person has a share
}

// line is one crop of one farm in which the person has a share.
type line struct {
	*answer.StandingLine
	crop  *answer.CommodityPart
	share answer.Chance
}

// called names a person in a sentence: "the operator", or the name as it is in the file.
func called(id string) string {
	switch id {
	case "operator", "landowner", "landlord", "tenant":
		return "the " + id
	}
	return id
}

// readerOf is a person in one crop year of an answer, by its place.
func readerOf(c *answer.Comparison, id string, at int) *reader {
	r := &reader{id: id, today: c.Today, year: &c.CropYears[at]}
	for at := range r.year.Standing.Lines {
		l := &r.year.Standing.Lines[at]
		i := slices.IndexFunc(l.Signers, func(s answer.Signer) bool { return s.ID == id })
		if i < 0 {
			continue
		}
		r.lines = append(r.lines, line{l, cropOf(r.year, l), l.Signers[i].Share})
	}
	slices.SortStableFunc(r.lines, func(a, b line) int { // within a farm the most money first
		if a.Farm != b.Farm {
			return 0
		}
		return cmp.Compare(b.crop.Stake(), a.crop.Stake())
	})
	return r
}

// cropOf is the crop that a line stands for.
func cropOf(y *answer.YearPart, l *answer.StandingLine) *answer.CommodityPart {
	for i := range y.Farms {
		f := &y.Farms[i]
		for k := range f.Commodities {
			if f.Farm == l.Farm && f.Commodities[k].Commodity == l.Commodity {
				return &f.Commodities[k]
			}
		}
	}
	return &answer.CommodityPart{Commodity: l.Commodity}
}

// under is what the person is paid under a set of elections, nil where it is not known.
func (r *reader) under(name answer.UnderName) *answer.PersonPart {
	u := r.year.Operation.UnderElections(name)
	if u == nil {
		return nil
	}
	i := slices.IndexFunc(u.ByPerson, func(p answer.PersonPart) bool { return p.ID == r.id })
	if i < 0 {
		return nil
	}
	return &u.ByPerson[i]
}

// paid reports whether anything reaches the person under some elections.
func (r *reader) paid() bool {
	for _, name := range []answer.UnderName{answer.LastElected, answer.AsItLeans} {
		if p := r.under(name); p != nil && p.Mean > 0 {
			return true
		}
	}
	return false
}

// alike reports whether the person's crops have the same programs under both sets.
func (r *reader) alike() bool {
	last, leads := r.year.Operation.UnderElections(answer.LastElected), r.year.Operation.UnderElections(answer.AsItLeans)
	if last == nil || leads == nil {
		return false
	}
	one, other := r.under(answer.LastElected), r.under(answer.AsItLeans)
	return one != nil && other != nil && one.Mean == other.Mean && one.MeanAfterLimit == other.MeanAfterLimit && !slices.ContainsFunc(r.lines, func(l line) bool {
		return last.Choices[l.Farm][l.Commodity] != leads.Choices[l.Farm][l.Commodity]
	})
}

// higherOfBoth reports whether the law of the year pays the higher of PLC and ARC-CO.
func higherOfBoth(y *answer.YearPart) bool {
	for i := range y.Farms {
		for k := range y.Farms[i].Commodities {
			if y.Farms[i].Commodities[k].Programs.Of(farm.HigherOf) != nil {
				return true
			}
		}
	}
	return false
}

// onFarm writes a crop and its farm: "corn on farm 0588".
func onFarm(y *answer.YearPart, l *answer.StandingLine) string {
	return l.Commodity.Name() + " on farm " + wording.Farm(l.Farm, y.Farms)
}

// leftOut names the person's crops that are in no figure of a set of elections.
func (r *reader) leftOut(name answer.UnderName) (crops []string) {
	u := r.year.Operation.UnderElections(name)
	for _, l := range r.lines {
		if u != nil && slices.Contains(u.LeftOut, l.Farm+" "+string(l.Commodity)) {
			crops = append(crops, onFarm(r.year, l.StandingLine))
		}
	}
	return crops
}

// someOf names one or two crops, and of more says how many of all they are.
func someOf(crops []string, all int) string {
	if len(crops) > 2 {
		return fmt.Sprintf("%d of %d crops", len(crops), all)
	}
	return wording.Joined(crops)
}
