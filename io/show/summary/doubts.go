package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/flag"
)

// notConfirmed is the word for figures of crop.Unverified.
const notConfirmed = "not confirmed"

// electionRule is the name of the law's row that asks for a new election.
const electionRule = "the election rule"

// doubtList gathers figures that are projected, assumed or not confirmed, by that word.
type doubtList struct {
	words []string
	names map[string][]string
}

// add takes a figure by name where its status needs a mark.
func (d *doubtList) add(name string, status crop.Status) {
	word := string(status)
	switch {
	case !status.Marked():
		return
	case status == crop.Unverified:
		word = notConfirmed
	}
	if d.names == nil {
		d.names = map[string][]string{}
	}
	if !slices.Contains(d.words, word) {
		d.words = append(d.words, word)
	}
	if !slices.Contains(d.names[word], name) {
		d.names[word] = append(d.names[word], name)
	}
}

// doubts name what the figures of a crop year rest on that is not certain.
func doubts(y answer.YearPart) report.Lines {
	var d doubtList
	var shares []string
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			d.addCommodity(c)
			switch {
			case c.AssumedShare == nil:
			case len(y.Farms) == 1:
				shares = append(shares, c.Commodity.Name())
			default:
				shares = append(shares, c.Commodity.Name()+" on farm "+wording.Farm(f.Farm, y.Farms))
			}
		}
	}
	switch {
	case len(shares) > most:
		d.add(fmt.Sprintf("the irrigated share of %d lines", len(shares)), crop.Assumed)
	case len(shares) > 0:
		d.add("the irrigated share of "+strings.Join(shares, " and of "), crop.Assumed)
	}
	for _, p := range y.Operation.ByPerson {
		d.add("the "+wording.Whole(&p.Limit)+" payment limit a person", p.LimitStatus)
	}
	d.add("sequestration", y.Operation.SequestrationStatus)
	for _, text := range flagged(y, unverified) {
		if names, is := strings.CutPrefix(text, "Not yet confirmed for "); is {
			_, names, _ = strings.Cut(strings.TrimSuffix(names, "."), ": ")
			for _, name := range strings.Split(names, ", ") {
				if name == electionRule && strings.Contains(wording.WithoutElection(y.Standing, y.CropYear), notConfirmed) {
					continue // said at its place
				}
				if !strings.Contains(name, "payment limit") && !strings.Contains(name, "sequestration") { // the answer has their status
					d.add(name, crop.Unverified)
				}
			}
		}
	}
	if offersIndividual(y) {
		d.add("ARC-IC", crop.Unverified)
	}
	return append(d.line(), oldFigures(y)...)
}

// line is the sentence of all words; a figure that has several words is "some" of its kind.
func (d *doubtList) line() report.Lines {
	count := map[string]int{}
	for _, names := range d.names {
		for _, name := range names {
			count[name]++
		}
	}
	var parts []string
	for _, word := range d.words {
		var names []string
		for _, name := range d.names[word] {
			if count[name] > 1 {
				name = "some " + name
			}
			names = append(names, name)
		}
		parts = append(parts, wording.Capital(word)+": "+wording.Joined(names)+".")
	}
	if len(parts) == 0 {
		return nil
	}
	return report.Lines{"Not certain. " + strings.Join(parts, " ")}
}

// oldFigures say where prices are old or stand in for missing ones, and where a harvest is
// over and nothing is known of it: the lead can turn with newer ones.
func oldFigures(y answer.YearPart) (said report.Lines) {
	if len(flagged(y, marketStale)) > 0 {
		said = append(said, fmt.Sprintf("Prices are over %d days old: newer ones can turn a lead (fencerow market).", flag.StaleDays))
	}
	carried := cropsFlagged(y, priceCarried, func(c answer.CommodityPart) bool { return c.MYA != nil && c.MYA.Status == crop.Assumed })
	if len(carried) > 0 {
		said = append(said, fmt.Sprintf("No USDA price for %s: the last one is carried forward (assumed).", wording.Joined(carried)))
	}
	if unknown := cropsFlagged(y, yieldNotKnown, beforeHarvest); len(unknown) > 0 {
		said = append(said, fmt.Sprintf("No harvest report for %s: odds are still from before harvest.", wording.Joined(unknown)))
	}
	return said
}

// beforeHarvest reports whether a county yield of a crop is one from before harvest.
func beforeHarvest(c answer.CommodityPart) bool {
	return slices.ContainsFunc(c.Bases, func(b answer.BasePart) bool {
		return b.CountyYield != nil && b.CountyYield.KnownFrom == wording.BeforeHarvest
	})
}

// cropsFlagged names the crops that are so, on farms that have the flag.
func cropsFlagged(y answer.YearPart, code string, is func(answer.CommodityPart) bool) (names []string) {
	for _, f := range y.Farms {
		if !slices.ContainsFunc(f.Flags, func(flag answer.Flag) bool { return flag.Code == code }) {
			continue
		}
		for _, c := range f.Commodities {
			if is(c) && !slices.Contains(names, c.Commodity.Name()) {
				names = append(names, c.Commodity.Name())
			}
		}
	}
	return names
}

// addCommodity takes what the figures of a commodity rest on.
func (d *doubtList) addCommodity(c answer.CommodityPart) {
	if c.MYA != nil {
		d.add("prices", c.MYA.Status)
	}
	if c.EffectiveReferencePrice != nil {
		d.add("reference prices", c.ReferencePriceStatus)
	}
	for _, b := range c.Bases {
		if b.BaseAcres > 0 && b.CountyYield != nil {
			d.add("county yields", b.CountyYield.Status)
		}
		if b.BaseAcres > 0 && b.BenchmarkYield != nil {
			d.add("benchmark yields", b.BenchmarkStatus)
		}
	}
}
