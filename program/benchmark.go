package program

import (
	"fencerow/program/crop"
)

// Steps to the benchmark of ARC-CO. Adjusted yields are the agency's or a county file's.
var (
	StepAdjustedYield  = Step{"adjusted_yield", "adjusted yield of crop year", unitsPerAcre, ""}
	StepBenchmarkYield = Step{"benchmark_yield", "benchmark yield: average of the middle three of five adjusted yields", unitsPerAcre, "7 U.S.C. 9017(c)(2)(A)"}
	StepRaisedPrice    = Step{"mya_price_raised", "price raised to the effective reference price, crop year", perUnit, "7 U.S.C. 9017(c)(2)(B),(c)(6)"}
	StepBenchmarkPrice = Step{"benchmark_price", "benchmark price: average of the middle three", perUnit, "7 U.S.C. 9017(c)(2)(B),(c)(6)"}
)

// OlympicAverage returns the mean of the middle three of five values: one
// highest and one lowest are dropped, also where several are equal. Unrounded.
//
// Source: 7 U.S.C. 9011(8)(B)(ii), 9017(c)(2).
func OlympicAverage(v [5]float64) float64 {
	sum := v[0] + v[1] + v[2] + v[3] + v[4]
	lowest, highest := min(v[0], v[1], v[2], v[3], v[4]), max(v[0], v[1], v[2], v[3], v[4])
	return (sum - lowest - highest) / 3
}

// BenchmarkPrice returns the ARC-CO benchmark price: the Olympic average of five
// marketing-year average prices, each raised to floor where it is lower. floor
// is the reference price (2014-2018) or the program year's own effective
// reference price, the same in all five years (from 2019).
//
// Source: 7 U.S.C. 9017(c)(2)(B),(c)(6). Example:
// testdata/published/proag-2025-benchmark-price.json (wheat tells the floors apart).
func BenchmarkPrice(mya [5]crop.Price, floor crop.Price, decimals int) crop.Price {
	var raised [5]crop.Price
	for i, price := range mya {
		raised[i] = max(price, floor)
	}
	return Round(OlympicAverage(raised), decimals)
}

// BenchmarkYield returns the ARC-CO benchmark yield from the five adjusted
// yields of the program year, rounded to decimals (0 in 2014-2018, then 2).
//
// Source: 7 U.S.C. 9017(c)(2)(A).
func BenchmarkYield(adjusted [5]crop.Yield, decimals int) crop.Yield {
	return Round(OlympicAverage(adjusted), decimals)
}

// AdjustedYield returns one of the five yields that a program year's benchmark
// is built from: the county's yield of cropYear, raised to plug where lower,
// and carried forward to programYear by trend (units per acre and year).
//
//	adjusted = max(actual, plug) + (programYear - cropYear) x trend
//
// plug is 80 percent of the transitional yield, 0 where not known.
// Source: 7 U.S.C. 9017(c)(4),(5); form found by recomputing FSA's tables of
// program years 2019-2025 (docs/validation.md).
func AdjustedYield(actual, plug, trend crop.Yield, cropYear, programYear crop.CropYear, decimals int) crop.Yield {
	return Round(max(actual, plug)+float64(programYear-cropYear)*trend, decimals)
}
