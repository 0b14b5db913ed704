package summary

import (
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/crop"
	"fencerow/sim/answer"
)

// notConfirmed is the word for figures of crop.Unverified.
const notConfirmed = "not confirmed"

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
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			d.addCommodity(c)
		}
	}
	for _, p := range y.Operation.ByPerson {
		d.add("the "+wording.Whole(&p.Limit)+" payment limit", p.LimitStatus)
	}
	d.add("sequestration", y.Operation.SequestrationStatus)
	for _, text := range flagged(y, unverified) {
		if names, is := strings.CutPrefix(text, "Not yet confirmed for "); is {
			_, names, _ = strings.Cut(strings.TrimSuffix(names, "."), ": ")
			for _, name := range strings.Split(names, ", ") {
				if !strings.Contains(name, "payment limit") && !strings.Contains(name, "sequestration") { // the answer has their status
					d.add(name, crop.Unverified)
				}
			}
		}
	}
	if offersIndividual(y) {
		d.add("ARC-IC", crop.Unverified)
	}
	var parts []string
	for _, word := range d.words {
		parts = append(parts, wording.Capital(word)+": "+wording.Joined(d.names[word])+".")
	}
	if len(parts) == 0 {
		return flagged(y, turning...)
	}
	return append(report.Lines{"Not certain. " + strings.Join(parts, " ")}, flagged(y, turning...)...)
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
	if c.AssumedShare != nil {
		d.add("irrigated shares", c.AssumedShare.Status)
	}
}
