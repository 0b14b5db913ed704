package program

import (
	"cmp"
	"math"
	"slices"

	"fencerow/program/crop"
)

// newBaseLaw is where new base stands in the law: P.L. 119-21, sec. 10302; 7 CFR 1412.27.
const newBaseLaw = "P.L. 119-21, sec. 10302; 7 CFR 1412.27"

// Steps to a farm's new base acres.
var (
	StepPlanted           = Step{"planted", "acres planted and prevented", "acres", ""}
	StepMeanPlanted       = Step{"mean_planted", "average of the five years", "acres", newBaseLaw}
	StepCoveredMean       = Step{"covered_mean", "average of covered crops", "acres", newBaseLaw}
	StepNoncoveredMean    = Step{"noncovered_mean", "average of eligible crops that are not covered", "acres", newBaseLaw}
	StepTotalAcres        = Step{"total_acres", "total acres of the farm", "acres", ""}
	StepNoncoveredShare   = Step{"new_base_noncovered_share", "most that noncovered crops add, part of total acres", "1", ""}
	StepNoncoveredCounted = Step{"noncovered_counted", "noncovered crops counted", "acres", newBaseLaw}
	StepFiveYearSum       = Step{"five_year_sum", "five-year sum: covered average and noncovered counted", "acres", newBaseLaw}
	StepWithinTotalAcres  = Step{"within_total_acres", "five-year sum, at most the total acres", "acres", newBaseLaw}
	StepExistingBase      = Step{"existing_base", "base in effect on September 30, 2024", "acres", ""}
	StepAddedBeforeFactor = Step{"added_before_factor", "new base before the national factor", "acres", newBaseLaw}
	StepNationalFactor    = Step{"national_factor", "national factor", "1", ""}
	StepAdded             = Step{"added", "new base", "acres", newBaseLaw}
)

// NewBase is what decides over a farm's new base acres of crop year 2026. Means
// are over the five years 2019-2023, acres planted and prevented together, years
// with nothing counted as zero.
type NewBase struct {
	CoveredMean     crop.Acres // of covered commodities
	NoncoveredMean  crop.Acres // of eligible crops that are not covered
	TotalAcres      crop.Acres // of the farm
	ExistingBase    crop.Acres // in effect on 30 September 2024, without unassigned base
	NoncoveredShare crop.Share // of TotalAcres: the most that noncovered crops add
}

// Noncovered returns the acres that crops which are not covered add: their mean,
// at most a share (15 percent) of the farm's total acres.
//
// Source: P.L. 119-21, sec. 10302; 7 CFR 1412.27.
func (n NewBase) Noncovered() crop.Acres {
	return min(n.NoncoveredMean, n.NoncoveredShare*n.TotalAcres)
}

// FiveYearSum returns what the existing base is compared with.
//
// Source: 7 CFR 1412.27(b).
func (n NewBase) FiveYearSum() crop.Acres { return n.CoveredMean + n.Noncovered() }

// Eligible reports whether the farm has a claim to new base: covered plantings in
// the five years, and a five-year sum above the existing base, to the hundredth.
//
// Source: P.L. 119-21, sec. 10302; 7 CFR 1412.27.
func (n NewBase) Eligible() bool {
	return n.CoveredMean > 0 && Round(n.FiveYearSum()-n.ExistingBase, acreDecimals) > 0
}

// Added returns the new base acres before the national factor, to the hundredth:
// what the five-year sum exceeds the existing base by, never more than brings the
// base to the farm's total acres. A farm that is not eligible gets none.
//
//	added = min(FiveYearSum, TotalAcres) - ExistingBase
//
// Source: P.L. 119-21, sec. 10302; 7 CFR 1412.27.
func (n NewBase) Added() crop.Acres {
	if !n.Eligible() {
		return 0
	}
	return Round(max(0, min(n.FiveYearSum(), n.TotalAcres)-n.ExistingBase), acreDecimals)
}

// acreDecimals are those base acres are recorded with.
const acreDecimals = 2

// remainderDecimals make remainders equal that binary noise alone tells apart, so
// that the order in which plantings were added up decides nothing.
const remainderDecimals = 6

// SharedBase divides base acres among commodities by their average plantings, to
// the hundredth of an acre, so that the parts add up to the whole: what rounding
// down leaves goes, a hundredth each, to the largest remainders, among equal ones
// to the first. So base was reallocated in 2014 and new base is allocated in 2026.
// With no plantings all parts are 0.
//
// Source: P.L. 119-21, sec. 10302; 7 U.S.C. 9012. Example:
// testdata/published/agweb-2014-base-reallocation.json.
func SharedBase(acres crop.Acres, plantings []crop.Acres) []crop.Acres {
	parts := make([]crop.Acres, len(plantings))
	var sum crop.Acres
	for _, p := range plantings {
		sum += p
	}
	if sum == 0 {
		return parts
	}
	hundredths := math.Pow10(acreDecimals)
	left := int(Round(acres*hundredths, 0))
	order := make([]int, len(plantings))
	remainder := make([]float64, len(plantings))
	for i, p := range plantings {
		exact := acres * hundredths * p / sum
		whole := math.Floor(exact + crop.Noise)
		parts[i], remainder[i], order[i] = whole/hundredths, Round(exact-whole, remainderDecimals), i
		left -= int(whole)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(remainder[b], remainder[a]) })
	for k := 0; k < left; k++ {
		parts[order[k]] = Round(parts[order[k]]+1/hundredths, acreDecimals)
	}
	return parts
}
