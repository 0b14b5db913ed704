package spoken

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// Of lays out the first crop year of a comparison.
func Of(c answer.Comparison) report.Report {
	y := c.CropYears[0]
	var r report.Report
	say := func(sentences ...string) {
		if text := wording.Sentences(sentences...); text != "" {
			r.Blocks = append(r.Blocks, report.Text(text))
		}
	}
	say(fmt.Sprintf("This is about the choice between two farm programs for crop year %d.", y.CropYear),
		"PLC, Price Loss Coverage, pays when the national price ends low.",
		"ARC county, Agriculture Risk Coverage, pays when the county's yield times the national price ends low.")
	say(wording.ToBePaid(y.Standing, y.CropYear), wording.LastDay(y.Standing, c.Today))
	for _, f := range y.Farms {
		say(farmSaid(f, y.Farms))
		for _, part := range f.Commodities {
			say(cropSaid(part, marginOf(y.Standing, f.Farm, part))...)
		}
		say(decides(y.Standing, f.Farm), wording.ContractState(f.Contract, y.CropYear))
	}
	say(paydays(y)...)
	say("These figures use prices of " + wording.Date(c.Market.AsOf) + ", and were made on " + wording.Date(c.Today) + ".")
	say(strings.Join(c.Caution, " "))
	for i, b := range r.Blocks {
		if text, is := b.(report.Text); is {
			r.Blocks[i] = report.Text(inFull.Replace(string(text)))
		}
	}
	return r
}

// inFull is how a program is said aloud.
var inFull = strings.NewReplacer("ARC-CO", "ARC county", "ARC-IC", "ARC individual")

// farmSaid names a farm digit by digit, as it is read out at a counter.
func farmSaid(f answer.FarmPart, among []answer.FarmPart) string {
	return fmt.Sprintf("Farm number %s, in %s.", spelled(wording.Farm(f.Farm, among)), wording.HomeCounty(f))
}

// spelled parts the digits of a number.
func spelled(number string) string { return strings.Join(strings.Split(number, ""), " ") }

// cropSaid says the odds and the average of one crop, and at which price it turns.
func cropSaid(part answer.CommodityPart, total *answer.Dollars) []string {
	said := []string{fmt.Sprintf("%s, %s base acres.", wording.Capital(part.Commodity.Name()), wording.Plain(&part.BaseAcres))}
	switch {
	case part.Programs.Of(farm.HigherOf) != nil:
		return append(said, "This year pays the higher of both, whatever was elected.")
	case part.Difference == nil:
		return append(said, wording.Capital(part.LeaderReason)+".")
	}
	said = append(said, wording.Odds(part), wording.Average(part, total), leans(part.Leader), wording.PriceLeads(part))
	if part.OnRecord != nil {
		said = append(said, "Last elected: "+wording.LastElected(part.OnRecord)+".")
	} else {
		said = append(said, "The last election was not given.")
	}
	return said
}

// marginOf is the margin of a crop on all its base, nil where it is not known.
func marginOf(s answer.Standing, key string, part answer.CommodityPart) *answer.Dollars {
	for _, l := range s.Lines {
		if l.Farm == key && l.Commodity == part.Commodity {
			return l.MarginTotal
		}
	}
	return nil
}

// leans says what the averages come to.
func leans(l answer.Leader) string {
	switch l {
	case answer.LeadsPLC, answer.LeadsARCCO:
		return fmt.Sprintf("So the figures lean to %s.", l)
	}
	return "So this is " + article(wording.Leads(l)) + "."
}

func article(words string) string {
	if words == "toss-up" {
		return "a toss-up"
	}
	return words
}

// decides says who decides on a farm, once.
func decides(s answer.Standing, key string) string {
	for _, l := range s.Lines {
		if l.Farm == key {
			return wording.Deciders(l)
		}
	}
	return ""
}

// paydays say when money comes, each day once.
func paydays(y answer.YearPart) (said []string) {
	for _, f := range y.Farms {
		for _, part := range f.Commodities {
			if text := wording.Payday(y.CropYear, part.PaymentNotBefore, part.TaxYear); !slices.Contains(said, text) {
				said = append(said, text)
			}
		}
	}
	return said
}
