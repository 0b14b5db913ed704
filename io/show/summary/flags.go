package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// unverified is the code of the flags about figures of the law that are not confirmed.
const unverified = "unverified_figure"

// saidElsewhere are the codes of flags whose matter stands in sentences of the summary.
var saidElsewhere = []string{answer.NewElectionFlag, "deadline_unknown", unverified, "county_stale", "limit_reached"}

// turning are the codes of flags about old or stand-in figures: the lead can turn with them.
var turning = []string{"market_stale", "price_carried"}

// flagged are the first sentences of the flags with these codes, each once.
func flagged(y answer.YearPart, codes ...string) (said report.Lines) {
	for _, f := range y.Farms {
		for _, flag := range f.Flags {
			if text := firstSentence(flag.Message); slices.Contains(codes, flag.Code) && !slices.Contains(said, text) {
				said = append(said, text)
			}
		}
	}
	return said
}

// firstSentence returns a text up to the end of its first sentence: a full stop before a
// space and a capital letter.
func firstSentence(text string) string {
	for at := 0; ; {
		i := strings.Index(text[at:], ". ")
		if i < 0 {
			return text
		}
		at += i + 2
		if at < len(text) && text[at] >= 'A' && text[at] <= 'Z' {
			return text[:at-1]
		}
	}
}

// stops says for each flag without which a figure or a payment would not be missing what it
// is, with its farms.
func stops(y answer.YearPart) (said report.Lines) {
	where := map[string][]string{}
	var order []string
	for _, f := range y.Farms {
		for _, flag := range f.Flags {
			text := firstSentence(flag.Message)
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

// otherFlags counts what else is flagged, for all farms and for some.
func otherFlags(y answer.YearPart) report.Lines {
	common := report.CommonFlags(y.Farms)
	everywhere := 0
	for _, flag := range common {
		if isOther(flag) {
			everywhere++
		}
	}
	var own []string
	for _, f := range y.Farms {
		if slices.ContainsFunc(f.Flags, func(flag answer.Flag) bool { return isOther(flag) && !slices.Contains(common, flag) }) {
			own = append(own, wording.Farm(f.Farm, y.Farms))
		}
	}
	var parts []string
	if everywhere > 0 {
		parts = append(parts, fmt.Sprintf("%d for every farm", everywhere))
	}
	if len(own) > 0 {
		parts = append(parts, "others for "+farmNames(own))
	}
	if len(parts) == 0 {
		return nil
	}
	return report.Lines{"More to check (--farm, fencerow check): " + strings.Join(parts, ", ") + "."}
}

// isOther reports whether a flag stands in no sentence of the summary.
func isOther(flag answer.Flag) bool {
	return flag.Severity != answer.Error && !slices.Contains(saidElsewhere, flag.Code) && !slices.Contains(turning, flag.Code)
}

// limitedLines say what is left of the leads of lines on which a payment limit is reached.
func limitedLines(y answer.YearPart) (said report.Lines) {
	for _, l := range y.Standing.Lines {
		a := l.AfterLimit
		if a == nil {
			continue
		}
		left := "both average the same"
		switch {
		case a.Mean > 0.005:
			left = "ARC-CO is " + wording.Margin(a.Mean) + " a base acre ahead"
		case a.Mean < -0.005:
			left = "PLC is " + wording.Margin(a.Mean) + " a base acre ahead"
		}
		said = append(said, fmt.Sprintf("%s %s %s: a payment limit is reached in %s of 100 outcomes. After shares, limit and sequestration %s.",
			limitMark, wording.Farm(l.Farm, y.Farms), l.Commodity.Name(), wording.InHundred(a.ChanceOfLimit), left))
	}
	return capped(said, "lines where a limit is reached")
}
