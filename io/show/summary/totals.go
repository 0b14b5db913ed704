package summary

import (
	"fmt"
	"slices"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// lowTenth is the place in answer.Percentiles of what one outcome in ten is below.
const lowTenth = 1

// totals say what the whole operation is paid in a crop year, after limits, under the last
// election and as each line leans, and how low one outcome in ten is. The first says what is
// taken out; where there are several each names its crop year.
func totals(y answer.YearPart, first, several bool) (said report.Lines) {
	elected, leading := y.Operation.UnderElections(answer.LastElected), y.Operation.UnderElections(answer.AsItLeans)
	if leading == nil || leading.MeanAfterLimit == nil {
		return nil
	}
	text := wholeOperation(y, first, several)
	switch {
	case elected == nil || elected.MeanAfterLimit == nil:
	case slices.Equal(elected.LeftOut, leading.LeftOut) && *elected.MeanAfterLimit == *leading.MeanAfterLimit:
		return append(report.Lines{text + " As last elected and as each line leans, " + amount(leading) + "."}, afterTotals(y, leading)...)
	case slices.Equal(elected.LeftOut, leading.LeftOut):
		text += " As last elected, " + amount(elected) + "."
	default:
		text += " As last elected there is no sum to set beside it: " + notElected(elected.LeftOut) + "."
	}
	said = append(said, text+" As each line leans, "+amount(leading)+".")
	return append(said, afterTotals(y, leading)...)
}

// afterTotals says what is not in the sums, and what ARC-IC would make of them where it was
// asked for.
func afterTotals(y answer.YearPart, leading *answer.UnderPart) (said report.Lines) {
	var left []string
	for _, line := range leading.LeftOut {
		key, name, _ := strings.Cut(line, " ")
		left = append(left, wording.Farm(key, y.Farms)+" "+strings.ReplaceAll(name, "_", " "))
	}
	if len(left) > 0 {
		said = append(said, fmt.Sprintf("Not in these sums, because a figure is missing: %s.", listed(left)))
	}
	return append(said, individualInside(y.Operation)...)
}

// wholeOperation says whose payments are added up and what is taken out.
func wholeOperation(y answer.YearPart, first, several bool) string {
	if !first {
		return fmt.Sprintf("All farms in %d, likewise.", y.CropYear)
	}
	whole := "All farms"
	if several {
		whole = fmt.Sprintf("All farms in %d", y.CropYear)
	}
	whole += ", after shares, payment limit and sequestration"
	if leading := y.Operation.UnderElections(answer.AsItLeans); offersIndividual(y) && !leading.ARCICInside {
		whole += " (ARC-IC left out)"
	}
	return whole + "."
}

// amount is the average and the low one in ten of a set of elections.
func amount(u *answer.UnderPart) string {
	text := wording.Whole(u.MeanAfterLimit) + " on average"
	if u.Percentiles == nil {
		return text
	}
	low := answer.Dollars(u.Percentiles[lowTenth])
	if low < 1 {
		return text + " and nothing in at least 1 outcome of 10"
	}
	return text + " and less than " + wording.Whole(&low) + " in 1 outcome of 10"
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
		low := answer.Dollars(o.Percentiles[lowTenth])
		said += " and less than " + wording.Whole(&low) + " in 1 outcome of 10"
	}
	return report.Lines{said + ". That figure is not confirmed: the county office can work it out."}
}
