package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/program/farm"
	"fencerow/sim/answer"
)

// toBePaid says what must happen to be paid for a crop year, by when, by whom, and when the
// money can come. today is YYYY-MM-DD.
func toBePaid(y answer.YearPart, today string) report.Lines {
	s := y.Standing
	return report.Lines{
		wording.Sentences(wording.ToBePaid(s, y.CropYear), wording.WithoutElection(s, y.CropYear)),
		wording.Sentences(wording.LastDay(s, today), agree(y), contracts(y), paydays(y)),
	}
}

// agree names the farms whose elections several people decide together, and who decides
// the others.
func agree(y answer.YearPart) string {
	together, alone := map[string][]string{}, map[string][]string{}
	var groups, singles []string
	for _, l := range y.Standing.Lines {
		into, order, who := alone, &singles, deciders(l)
		if len(l.Signers) > 1 || l.Others > 0 {
			into, order = together, &groups
		}
		name := wording.Farm(l.Farm, y.Farms)
		if !slices.Contains(*order, who) {
			*order = append(*order, who)
		}
		if !slices.Contains(into[who], name) {
			into[who] = append(into[who], name)
		}
	}
	if len(groups)+len(singles) > most {
		return "Where several people share in the crop, all of them must agree (--farm names them)."
	}
	var said []string
	for _, who := range groups {
		said = append(said, fmt.Sprintf("On %s, %s must agree.", farmNames(together[who]), who))
	}
	for _, who := range singles {
		switch {
		case len(singles) > 1:
			said = append(said, fmt.Sprintf("On %s, %s decides.", farmNames(alone[who]), who))
		case len(groups) > 0:
			said = append(said, fmt.Sprintf("Elsewhere %s decides.", who))
		default:
			said = append(said, wording.Capital(who)+" decides.")
		}
	}
	return strings.Join(said, " ")
}

// farmNames lists a few farms, or counts them.
func farmNames(farms []string) string {
	if len(farms) > most {
		return fmt.Sprintf("%d farms", len(farms))
	}
	return wording.Joined(farms)
}

// deciders names those who decide a line: "operator and landowner".
func deciders(l answer.StandingLine) string {
	var words []string
	for _, s := range l.Signers {
		words = append(words, s.ID)
	}
	if l.Others > 0 {
		words = append(words, "others not in this file")
	}
	return wording.Joined(words)
}

// contracts says whether a contract is signed already; those that were missed are among
// what stops payment.
func contracts(y answer.YearPart) string {
	var signed []string
	open := false
	for _, f := range y.Farms {
		switch f.Contract {
		case farm.Signed:
			signed = append(signed, wording.Farm(f.Farm, y.Farms))
		case farm.Open:
			open = true
		}
	}
	switch {
	case len(signed) == 0 && open:
		return "No contract is signed yet."
	case len(signed) == 0:
		return ""
	case !open:
		return fmt.Sprintf("Every %d contract here is signed.", y.CropYear)
	}
	return fmt.Sprintf("The %d contract is signed on %s only.", y.CropYear, farmNames(signed))
}

// paydays say when crops can be paid at the earliest, a sentence for each day.
func paydays(y answer.YearPart) string {
	crops := map[string][]string{}
	var days []string
	for _, f := range y.Farms {
		for _, c := range f.Commodities {
			day := c.PaymentNotBefore
			if !slices.Contains(days, day) {
				days = append(days, day)
			}
			if name := c.Commodity.Name(); !slices.Contains(crops[day], name) {
				crops[day] = append(crops[day], name)
			}
		}
	}
	switch {
	case !slices.ContainsFunc(y.Farms, func(f answer.FarmPart) bool { return f.Contract != farm.Missed }):
		return "" // nothing is paid
	case len(days) == 1:
		return fmt.Sprintf("Payments come %s or later.", wording.Date(days[0]))
	}
	slices.Sort(days)
	var said []string
	for _, day := range days {
		said = append(said, fmt.Sprintf("Payments for %s come %s or later.", wording.Joined(crops[day]), wording.Date(day)))
	}
	return strings.Join(said, " ")
}
