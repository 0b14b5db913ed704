package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// totals say what the people of the file are paid in each crop year, after limits, under the
// last election and as each line leans, and what the poor case is. The first says whose
// money it is and what is taken out; where there are several years each is named.
func totals(years []answer.YearPart) report.Lines {
	var sums, after []string
	var g gloss
	for _, y := range years {
		elected, leading := y.Operation.UnderElections(answer.LastElected), y.Operation.UnderElections(answer.AsItLeans)
		if leading == nil || leading.MeanAfterLimit == nil {
			continue
		}
		if len(sums) == 0 {
			sums = append(sums, whose(y))
		}
		year := ""
		if len(years) > 1 {
			year = fmt.Sprintf("%d ", y.CropYear)
		}
		sums = append(sums, g.sums(year, elected, leading)...)
		after = append(after, g.typed(year, y)...)
		after = append(after, afterTotals(y, leading)...)
	}
	if len(sums) == 0 {
		return nil
	}
	return append(report.Lines{strings.Join(sums, " ")}, after...)
}

// sums are the sentences of one crop year; year stands before the first, as "2026 ".
func (g *gloss) sums(year string, elected, leading *answer.UnderPart) []string {
	const last, leans = "as last elected", "as each line leans"
	begin := func(words string) string { return wording.Capital(year + words) }
	switch {
	case elected == nil || elected.MeanAfterLimit == nil:
		return []string{begin(leans) + ": " + g.amount(leading) + "."}
	case slices.Equal(elected.LeftOut, leading.LeftOut) && *elected.MeanAfterLimit == *leading.MeanAfterLimit:
		return []string{begin(last) + " and " + leans + ": " + g.amount(leading) + "."}
	case slices.Equal(elected.LeftOut, leading.LeftOut):
		return []string{begin(last) + ": " + g.amount(elected) + ".", wording.Capital(leans) + ": " + g.amount(leading) + "."}
	}
	return []string{begin(last) + " there is no sum to set beside it: " + notElected(elected.LeftOut) + ".", wording.Capital(leans) + ": " + g.amount(leading) + "."}
}

// typed is the line about the choices that people typed for a crop year, none where they
// typed none.
func (g *gloss) typed(year string, y answer.YearPart) report.Lines {
	under := y.Operation.UnderElections(answer.TypedChoice)
	switch {
	case under == nil:
		return nil
	case under.MeanAfterLimit == nil:
		return report.Lines{wording.Sentences(wording.Capital(year+"under the choices typed here")+": unknown.", wording.WithoutChoice(y, listed))}
	}
	return report.Lines{wording.Sentences(wording.Capital(year+"under the choices typed here")+": "+g.amount(under)+".", wording.WithoutChoice(y, listed))}
}

// afterTotals says what is not in the sums, and what ARC-IC would make of them where it was
// asked for.
func afterTotals(y answer.YearPart, leading *answer.UnderPart) (said report.Lines) {
	if left := wording.FarmsAndCrops(leading.LeftOut, y.Farms); len(left) > 0 {
		said = append(said, fmt.Sprintf("Not in these sums, because a figure is missing: %s.", listed(left)))
	}
	return append(said, individualInside(y.Operation)...)
}

// whose says whose payments are added up and what is taken out.
func whose(y answer.YearPart) string {
	whole := "All farms"
	switch {
	case len(y.Operation.ByPerson) > 1:
		whole = "All people of this file together"
	case len(y.Farms) == 1:
		whole = "The farm"
	}
	whole += ", after shares, limit and sequestration (a federal cut)"
	if leading := y.Operation.UnderElections(answer.AsItLeans); offersIndividual(y) && !leading.ARCICInside {
		whole += ", without ARC-IC"
	}
	return whole + "."
}

// gloss remembers which words of the sums are explained already.
type gloss struct{ average, lower, nothing bool }

// amount is the average and the poor case of a set of elections; what these are is said the
// first time.
func (g *gloss) amount(u *answer.UnderPart) string {
	text := wording.Whole(u.MeanAfterLimit)
	if !g.average {
		text, g.average = text+" on average", true
	}
	if u.Percentiles == nil {
		return text
	}
	low := answer.Dollars(u.Percentiles[answer.Tenth])
	switch poor := wording.Whole(&low); {
	case low < 1 && !g.nothing && !g.lower:
		g.nothing = true
		return text + ", poor case " + poor + " (at least 1 in 10 gets nothing)"
	case low >= 1 && !g.lower:
		g.lower = true
		return text + ", poor case " + poor + " (1 in 10 is lower)"
	default:
		return text + ", poor " + poor
	}
}

// notElected says where no last election is known.
func notElected(left []string) string {
	if len(left) == 1 {
		return "1 line has no last election here"
	}
	return fmt.Sprintf("%d lines have no last election here", len(left))
}

// listed names a few and counts the others.
func listed(all []string) string {
	if len(all) <= most {
		return wording.Joined(all)
	}
	return fmt.Sprintf("%s and %d more", all[0], len(all)-1)
}

// offersIndividual reports whether ARC-IC can matter on a farm of the year.
func offersIndividual(y answer.YearPart) bool {
	return slices.ContainsFunc(y.Farms, func(f answer.FarmPart) bool { return f.ARCIC != nil && f.ARCIC.CanMatter })
}

// individualInside gives the sum of the choices that average most where ARC-IC is among
// them, "" else.
func individualInside(o answer.OperationPart) report.Lines {
	if o.MeanAfterLimit == nil || !hasIndividual(o.HighestMean) {
		return nil
	}
	said := fmt.Sprintf("With ARC-IC where it averages most: %s on average", wording.Whole(o.MeanAfterLimit))
	if o.Percentiles != nil {
		low := answer.Dollars(o.Percentiles[answer.Tenth])
		said += " and less than " + wording.Whole(&low) + " in 1 outcome of 10"
	}
	return report.Lines{said + ". That figure is not confirmed: the county office can work it out."}
}
