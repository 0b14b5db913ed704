package summary

import (
	"fmt"
	"strings"

	"fencerow/io/show/report"
	"fencerow/io/show/wording"
	"fencerow/sim/answer"
)

// hasIndividual reports whether a farm is under ARC-IC in these choices.
func hasIndividual(choices map[string]answer.Choice) bool {
	for _, choice := range choices {
		if choice.Individual() {
			return true
		}
	}
	return false
}

// individualWhole names ARC-IC where it first stands.
const individualWhole = "ARC-IC (by the farm's own yields, whole farm)"

// individual names the farms on which ARC-IC can matter.
func individual(y answer.YearPart) (said report.Lines) {
	for _, f := range y.Farms {
		if f.ARCIC != nil && f.ARCIC.CanMatter {
			name := wording.Farm(f.Farm, y.Farms)
			said = append(said, fmt.Sprintf("%s may matter on %s. %s.", individualWhole, name, wording.Capital(strings.TrimPrefix(f.ARCIC.Reason, "the farm's "))))
		}
	}
	return capped(said, "farms where ARC-IC may matter")
}
