package program

import (
	"fencerow/program/crop"
)

// Steps to the target price. Until 2018 it is the reference price itself; its name stays
// the same, so that one program can read all crop years.
var (
	StepReferencePrice          = Step{"reference_price", "reference price", perUnit, ""}
	StepPastPrice               = Step{"mya_price", "national price of crop year", perUnit, ""}
	StepAverageShare            = Step{"reference_price_average_share", "part of the average of five prices", "1", ""}
	StepEffectiveLimit          = Step{"effective_reference_price_limit", "effective reference price at most this part of the reference price", "1", ""}
	StepPriceAverage            = Step{"mya_price_average", "average of the middle three of five prices", perUnit, "7 U.S.C. 9011(8)(B)(ii)"}
	StepMostEffective           = Step{"effective_reference_price_most", "most there can be", perUnit, "7 U.S.C. 9011(8)(A)"}
	StepAveragePart             = Step{"mya_price_average_part", "part of the average", perUnit, "7 U.S.C. 9011(8)(B)(ii)"}
	StepEffectiveReferencePrice = Step{"effective_reference_price", "effective reference price", perUnit, "7 U.S.C. 9011(8)"}
	StepTargetIsReference       = Step{"effective_reference_price", "the reference price, which PLC pays up to", perUnit, ""}
)

// steppedReferencePrice returns the reference price, in the unit of list, after
// a number of yearly steps on the list price, never above limit times it.
//
//	price = list x min(step^steps, limit)
//
// Unrounded: no rounding rule was found. From crop year 2031.
// Source: P.L. 119-21 sec. 10301(b).
func steppedReferencePrice(list crop.Price, step, limit crop.Share, steps int) crop.Price {
	factor := 1.0
	for range steps {
		factor *= step
	}
	return Round(list*min(factor, limit), conversionDecimals)
}

// EffectiveReferencePrice returns the price up to which PLC pays, from crop
// year 2019.
//
//	price = min(limit x reference, max(reference, share x OlympicAverage(mya)))
//
// limit and share are parts of one; mya holds the marketing-year average prices
// of the five crop years t-6 to t-2. The two products are each rounded to the
// decimals of the commodity before they are compared.
// Source: 7 U.S.C. 9011(8). Example: testdata/published/codak-2026-effective-reference-price.json.
func EffectiveReferencePrice(reference crop.Price, share, limit crop.Share, mya [5]crop.Price, decimals int) crop.Price {
	most := Round(limit*reference, decimals)                   // 7 U.S.C. 9011(8)(A)
	average := Round(share*OlympicAverage(mya), decimals)      // 7 U.S.C. 9011(8)(B)(ii)
	return Round(min(most, max(reference, average)), decimals) // (8)(B)(i)
}
