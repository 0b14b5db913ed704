package flag

import (
	"fmt"
	"strings"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// mergeNeedsSameElection flags farms that are to be merged with one whose last
// election differs, or is not known, for any covered commodity, with or without base of
// it.
//
// Source: 7 CFR 1412.73(b).
func mergeNeedsSameElection(c *Case) []answer.Flag {
	if c.Farm.MergeWith == "" {
		return nil
	}
	const rule = "Farms can be merged only if the election of every covered crop is the same, whether or not the farm has base of it."
	source := CitationOf("merge_needs_same_election", c.CropYear)
	other, found := c.mergedWith()
	if !found {
		message := fmt.Sprintf("The farm is to be merged with farm %s, which is not in this file. %s Compare both records at the county office first.", c.Farm.MergeWith, rule)
		return []answer.Flag{{Code: "merge_needs_same_election", Severity: answer.Warning, Message: message, Source: source}}
	}
	differ, unknown := recordsApart(c.Farm, other)
	if len(differ)+len(unknown) == 0 {
		return nil
	}
	message := fmt.Sprintf("The farm is to be merged with farm %s.", other.Key())
	if len(differ) > 0 {
		message += fmt.Sprintf(" Their last elections differ: %s.", strings.Join(differ, ", "))
	}
	if len(unknown) > 0 {
		message += fmt.Sprintf(" The last election of one farm is not given for %s.", strings.Join(unknown, ", "))
	}
	message += " " + rule + " A merger cannot change an election. Ask the county office before filing the merger."
	return []answer.Flag{{Code: "merge_needs_same_election", Severity: answer.Warning, Message: message, Source: source}}
}

// mergedWith finds the farm that this one is to be merged with.
func (c *Case) mergedWith() (farm.Farm, bool) {
	for _, f := range c.Question.Operation.Farms {
		if f.Key() == c.Farm.MergeWith || f.Number == c.Farm.MergeWith && f.County == c.Farm.County {
			return f, true
		}
	}
	return farm.Farm{}, false
}

// recordsApart names the commodities whose last election differs between two farms, and
// those for which only one of them has one.
func recordsApart(mine, other farm.Farm) (differ, unknown []string) {
	for _, commodity := range crop.Commodities() {
		here, has := mine.Record[commodity]
		there, also := other.Record[commodity]
		switch {
		case has != also:
			unknown = append(unknown, commodity.Name())
		case here != there:
			differ = append(differ, fmt.Sprintf("%s (%s here, %s there)", commodity.Name(), here, there))
		}
	}
	return differ, unknown
}
