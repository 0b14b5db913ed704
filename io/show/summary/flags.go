package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program"
	"fencerow/sim/answer"
)

// unverified is the code of the flags about figures of the law that are not confirmed.
const unverified = "unverified_figure"

// saidElsewhere are the codes of flags whose matter stands in sentences of the summary.
var saidElsewhere = []string{answer.NewElectionFlag, "deadline_unknown", unverified, "county_stale", "limit_reached", "irrigated_history_missing", marketStale, priceCarried, yieldNotKnown, higherOf}

// higherOf is the code of the flag of a year that pays the higher of both programs.
const higherOf = "higher_of_2025"

// Codes of flags about old or stand-in figures: the lead can turn with them.
const marketStale, priceCarried, yieldNotKnown = "market_stale", "price_carried", "yield_not_known"

// flagged are the first sentences of the flags with these codes, each once.
func flagged(y answer.YearPart, codes ...string) (said report.Lines) {
	for _, f := range y.Farms {
		for _, flag := range f.Flags {
			if text := wording.FirstSentences(flag.Message, 1); slices.Contains(codes, flag.Code) && !slices.Contains(said, text) {
				said = append(said, text)
			}
		}
	}
	return said
}

// shortFlag is the length in letters up to which a second sentence of a flag is told.
const shortFlag = 150

// twoSentences returns the first sentence of a text, and the second where both are short.
func twoSentences(text string) string {
	first := wording.FirstSentences(text, 1)
	rest, more := strings.CutPrefix(text, first+" ")
	if second := wording.FirstSentences(rest, 1); more && len(first)+1+len(second) <= shortFlag {
		return first + " " + second
	}
	return first
}

// stops says for each flag without which a figure or a payment would not be missing what it
// is, with its farms.
func stops(y answer.YearPart) (said report.Lines) {
	where := map[string][]string{}
	var order []string
	for _, f := range y.Farms {
		for _, flag := range f.Flags {
			text := wording.FirstSentences(flag.Message, 1)
			if flag.Severity != answer.Error || slices.Contains(where[text], wording.Farm(f.Farm, y.Farms)) {
				continue
			}
			if where[text] == nil {
				order = append(order, text)
			}
			where[text] = append(where[text], wording.Farm(f.Farm, y.Farms))
		}
	}
	for _, text := range order {
		farms := "Farm " + where[text][0]
		if n := len(where[text]); n > 1 {
			farms = "Farms " + wording.Joined(where[text])
			if n > most {
				farms = fmt.Sprintf("%d farms", n)
			}
		}
		said = append(said, farms+": "+text)
	}
	return capped(said, "things that stop a payment or a figure")
}

// isOther reports whether a flag stands in no sentence of the summary.
func isOther(flag answer.Flag) bool {
	return flag.Severity != answer.Error && !slices.Contains(saidElsewhere, flag.Code)
}

// limitedLines say what a payment limit leaves of the leads of the lines on which it is
// reached: of each where they are few, else how many, and those on which the lead turns.
func limitedLines(y answer.YearPart) (said report.Lines) {
	var each, turned report.Lines
	most := answer.Chance(0)
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			if c.AfterLimit == nil {
				continue
			}
			text := limitMark + " " + lineName(f.Farm, c, y.Farms) + ": " + afterLimits(c)
			each, most = append(each, text), max(most, c.AfterLimit.ChanceOfLimit)
			if c.Leans == answer.LeadsPLC && c.AfterLimit.Mean > program.HalfCent || c.Leans == answer.LeadsARCCO && c.AfterLimit.Mean < -program.HalfCent {
				turned = append(turned, text)
			}
		}
	}
	if len(each) <= fewLimited {
		return each
	}
	said = report.Lines{fmt.Sprintf("%s On %d lines a payment limit is reached, in up to %s of 100 outcomes. After it the leads differ (--farm shows them).", limitMark, len(each), wording.InHundred(most))}
	return append(said, capped(turned, "lines where the lead turns after limits")...)
}

// fewLimited is how many lines with a payment limit are told one by one.
const fewLimited = 2

// afterLimits says how often a payment limit is reached and what is left of a lead, "" where
// none is.
func afterLimits(c answer.CommodityPart) string {
	a := c.AfterLimit
	if a == nil {
		return ""
	}
	left := "both average the same"
	switch {
	case a.Mean > program.HalfCent:
		left = "ARC-CO is " + wording.Margin(a.Mean) + " a base acre ahead"
	case a.Mean < -program.HalfCent:
		left = "PLC is " + wording.Margin(a.Mean) + " a base acre ahead"
	}
	return fmt.Sprintf("A payment limit is reached in %s of 100 outcomes. After shares, limit and sequestration %s.", wording.InHundred(a.ChanceOfLimit), left)
}
