package program

import (
	"math"

	"fencerow/program/crop"
)

// sameTrendTolerance is how near two trends of one table's row must be to be the
// same: the tables print yields to 0.01, and a trend is a difference of two.
const sameTrendTolerance = 0.015

// ProjectedYields estimates the five adjusted yields of the program year after
// programYear, oldest first, from the five of programYear, the yearly trend that
// they share (SharedTrend), and the newest county yield, of crop year
// programYear-1:
//
//	next     = adjusted + trend                     for the four years that stay
//	         = max(newest, plug) + 2 x trend        for the new one
//
// plug is the least that a year counts, 0 where not known. The agency estimates
// the trend anew every year: the result is a projection. Unrounded but for the
// hundredth of yields.
// Source: form of the tables found by recomputation, see AdjustedYield.
func ProjectedYields(five [5]crop.Yield, trend crop.Yield, programYear crop.CropYear, newest, plug crop.Yield, decimals int) (next [5]crop.Yield) {
	for i := 1; i < len(five); i++ {
		next[i-1] = Round(five[i]+trend, decimals)
	}
	next[4] = AdjustedYield(newest, plug, trend, programYear-1, programYear+1, decimals)
	return next
}

// SharedTrend returns the yearly trend that most of the five adjusted yields of
// programYear share, the lower one of equals, and how many do; 0 where no actual
// yield is known.
//
//	trend = (adjusted - actual) / (programYear - crop year)
func SharedTrend(five [5]crop.Yield, actual map[crop.CropYear]crop.Yield, programYear crop.CropYear) (trend crop.Yield, share int) {
	const oldest = 6 // years back to the first of the five
	for i := range five {
		known, has := actual[programYear-oldest+i]
		if !has {
			continue
		}
		candidate := (five[i] - known) / float64(oldest-i)
		agree := 0
		for j := range five {
			y, has := actual[programYear-oldest+j]
			if has && math.Abs(five[j]-y-float64(oldest-j)*candidate) <= sameTrendTolerance {
				agree++
			}
		}
		if agree > share || agree == share && candidate < trend {
			share, trend = agree, candidate
		}
	}
	return trend, share
}
