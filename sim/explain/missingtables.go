package explain

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"fencerow/program/crop"
	"fencerow/sim/answer"
	"fencerow/sim/position"
)

// tablesMissing returns the program years between the first and the last of the agency's
// tables of a county for which no source has an actual or benchmark yield of the unit.
func tablesMissing(c answer.Question, u position.CountyUnit) (missing []crop.CropYear) {
	has, first, last := map[crop.CropYear]bool{}, crop.CropYear(0), crop.CropYear(0)
	for _, e := range c.Counties.Entries(u.County, u.Commodity, u.Practice) {
		for _, series := range []map[crop.CropYear]crop.Yield{e.BenchmarkYield, e.Actual} {
			for y := range series {
				has[y] = true
				if e.Source.Agency && (first == 0 || y < first) {
					first = y
				}
				if e.Source.Agency {
					last = max(last, y)
				}
			}
		}
	}
	for y := first + 1; y < last; y++ {
		if !has[y] {
			missing = append(missing, y)
		}
	}
	return missing
}

// tablesToImport says which of FSA's county tables fill a gap; "" for none.
func tablesToImport(years []crop.CropYear) string {
	if len(years) == 0 {
		return ""
	}
	var words []string
	for _, y := range years {
		words = append(words, fmt.Sprint(y))
	}
	return fmt.Sprintf("FSA's county yields of program years %s: import these tables with fencerow county import FILE", strings.Join(words, ", "))
}

// sortedYears returns a set of years, oldest first.
func sortedYears(set map[crop.CropYear]bool) []crop.CropYear { return slices.Sorted(maps.Keys(set)) }
