package odds

import (
	"slices"

	"fencerow/program/crop"
)

// YearsForRatio is how many years two series of a county must share for a ratio
// between them.
const YearsForRatio = 3

// MedianRatio returns the median of level/other over the crop years that both have,
// and how many those are; 0 where there are none. Years in which either is 0 are left
// out.
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

// WithoutSourceStep returns a series in which the years before SourceChange are moved
// to the level of those after it, and by how much, in units per acre: by the
// difference of the medians of both sides once the slope of the robust line is taken
// off. The slope takes up part of a step, so the move errs on the small side. Where
// either side has fewer than YearsForRatio years the series is returned as it is.
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
