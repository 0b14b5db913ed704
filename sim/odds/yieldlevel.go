package odds

import (
	"slices"

	"fencerow/program/crop"
)

// YearsForRatio is how many years two series of a county must share for its own
// ratio to be taken.
const YearsForRatio = 3

// MedianRatio returns the median of level/other over the crop years both have, and how
// many those are; 0 of none. Years in which either is 0 are left out.
func MedianRatio(level, other map[crop.CropYear]crop.Yield) (ratio float64, years int) {
	var ratios []float64
	for y, value := range level {
		if at := other[y]; at > 0 && value > 0 {
			ratios = append(ratios, value/at)
		}
	}
	if len(ratios) == 0 {
		return 0, 0
	}
	return Median(ratios), len(ratios)
}

// SourceChange is the crop year from which the agency takes county yields from
// crop insurance first, and no more from NASS.
const SourceChange = 2019

// WithoutSourceStep returns a series in which the years before the change of the
// agency's source are moved to the level of those after it, by the difference of
// the medians of their distances from the robust line's slope, and by how much.
// The slope takes up a part of a step, so the move is a cautious one. Where
// either side has fewer than YearsForShift years the series is returned as it is.
func WithoutSourceStep(years []int, yields []float64) (level []float64, step float64) {
	_, slope := line(years, yields)
	var before, after []float64
	for i, y := range years {
		off := yields[i] - slope*float64(y)
		if y < SourceChange {
			before = append(before, off)
		} else {
			after = append(after, off)
		}
	}
	level = slices.Clone(yields)
	if len(before) < YearsForRatio || len(after) < YearsForRatio {
		return level, 0
	}
	step = Median(after) - Median(before)
	for i, y := range years {
		if y < SourceChange {
			level[i] += step
		}
	}
	return level, step
}
