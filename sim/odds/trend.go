package odds

import (
	"math"
	"slices"
)

// YearsForTrend is the fewest years from which a trend or a coefficient of variation
// of yields is estimated.
const YearsForTrend = 10

// Trend returns the yield that a robust straight line through yearly yields
// gives for the year at: its slope is the median of the slopes between any
// two years, its height the median of the residuals (Theil-Sen). Years need no order; with
// one year the line is flat, with none the result is NaN. Never below 0.
//
// Source: P. K. Sen, Journal of the American Statistical Association 63 (1968),
// 1379-1389.
func Trend(years []int, yields []float64, at int) float64 {
	height, slope := line(years, yields)
	return max(0, height+slope*float64(at))
}

// TrendAtSlope returns the yield of crop year at on a line with a given slope (units
// per acre and year) through the median of the yields, for series too short to give a
// slope. Never below 0.
func TrendAtSlope(years []int, yields []float64, slope float64, at int) float64 {
	var rests []float64
	for i := range years {
		rests = append(rests, yields[i]-slope*float64(years[i]))
	}
	return max(0, Median(rests)+slope*float64(at))
}

// Slope returns the slope of the robust line, units per acre and year.
func Slope(years []int, yields []float64) float64 {
	_, slope := line(years, yields)
	return slope
}

// RelativeSlope returns the robust slope of a series as a share of its median, per
// year; NaN where the median is not above zero.
func RelativeSlope(years []int, yields []float64) float64 {
	_, slope := line(years, yields)
	if middle := Median(slices.Clone(yields)); middle > 0 {
		return slope / middle
	}
	return math.NaN()
}

// line returns height (at year 0) and slope of the robust line.
func line(years []int, yields []float64) (height, slope float64) {
	var slopes, rests []float64
	for i := range years {
		for j := range i {
			if years[i] != years[j] {
				slopes = append(slopes, (yields[i]-yields[j])/float64(years[i]-years[j]))
			}
		}
	}
	if len(slopes) > 0 {
		slope = Median(slopes)
	}
	for i := range years {
		rests = append(rests, yields[i]-slope*float64(years[i]))
	}
	return Median(rests), slope
}

// Median returns the middle of x, the mean of the middle two of an even number;
// NaN of none. It sorts x.
func Median(x []float64) float64 {
	if len(x) == 0 {
		return math.NaN()
	}
	slices.Sort(x)
	n := len(x)
	return (x[(n-1)/2] + x[n/2]) / 2
}
