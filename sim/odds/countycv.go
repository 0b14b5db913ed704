package odds

import (
	"fmt"
	"math"

	"fencerow/program/crop"
)

// OwnSpread is how a county's own yields varied about their trend; Years 0 stands for a
// series that is too short to say.
type OwnSpread struct {
	CV               float64
	Years            int
	PerHarvestedAcre bool // so published: abandoned acres are left out
}

// SpreadOf returns the spread of a series of yearly yields: with YearsForTrend years or
// more the standard deviation of yield over its robust trend, less one, with n-2 in the
// denominator (not a robust estimate: the rare drought is what matters here).
func SpreadOf(years []int, yields []float64, perHarvestedAcre bool) OwnSpread {
	if len(years) < YearsForTrend {
		return OwnSpread{}
	}
	own := ownCV(years, yields)
	if math.IsNaN(own) {
		return OwnSpread{}
	}
	return OwnSpread{own, len(years), perHarvestedAcre}
}

// CountyCV returns the coefficient of variation of the yields of a county
// before harvest, in words the rule that gave it, and its status: Computed where the
// county's own figure stands, else Assumed. The first of these:
//
//   - the county's own spread;
//   - the median of the state's counties, then of the nation's;
//   - the nation's median of a like commodity, a judgement.
//
// Then at least 0.06 and at least 0.8 of the state's long-run coefficient where
// that is known, since a calm decade understates it; at most 0.45.
// A series per harvested acre leaves out abandoned acres, so it counts for no
// less than the median of counties, which is per planted acre.
// state is two digits.
func (k *Constants) CountyCV(c crop.Commodity, state string, own OwnSpread) (cv float64, rule string, status crop.Status) {
	median, medianRule := k.medianCV(c, state)
	cv, rule, status = median, medianRule, crop.Assumed
	if own.Years > 0 {
		cv, rule, status = own.CV, fmt.Sprintf("the county's own %d yields about their trend", own.Years), crop.Computed
		if own.PerHarvestedAcre && median > cv {
			cv, status = median, crop.Assumed
			rule += ", raised to the median per planted acre there"
		}
	}
	bounded, why := boundCV(c, state, cv)
	if bounded != cv {
		return bounded, rule + ", " + why, crop.Assumed
	}
	return cv, rule, status
}

// ownCV returns the root mean square of yield over trend, less one. NaN where
// a trend is not above zero.
func ownCV(years []int, yields []float64) float64 {
	height, slope := line(years, yields)
	sum := 0.0
	for i, y := range years {
		trend := height + slope*float64(y)
		if trend <= 0 {
			return math.NaN()
		}
		sum += (yields[i]/trend - 1) * (yields[i]/trend - 1)
	}
	return math.Sqrt(sum / float64(len(years)-2))
}

func (k *Constants) medianCV(c crop.Commodity, state string) (float64, string) {
	if row, ok := k.find("county_yield_cv_median", string(c), crop.StateNames[state], "annual"); ok {
		return row.Value, fmt.Sprintf("the median of %s in %s counties, %s", c.Name(), crop.StateNames[state], row.Period)
	}
	like, likened := cvFollows[c]
	if !likened {
		like = c
	}
	row, ok := k.find("county_yield_cv_quantile", string(like), "US", "q50")
	if !ok {
		panic("sim/odds/parameters.csv: no median spread of county yields of " + string(like))
	}
	rule := fmt.Sprintf("the median of %s in US counties, %s", like.Name(), row.Period)
	if likened {
		rule += ", taken for " + c.Name()
	}
	return row.Value, rule
}

// SpreadMeasured reports whether a commodity has measured spreads of county yields of its
// own and is not likened to another.
func SpreadMeasured(c crop.Commodity) bool {
	_, likened := cvFollows[c]
	return !likened
}

// boundCV raises cv to its floors or lowers it to its cap and says why.
func boundCV(c crop.Commodity, state string, cv float64) (float64, string) {
	const param = "county_yield_cv_floor"
	if highest := must("county_yield_cv_cap", "all", "US", "cv"); cv > highest {
		return highest, "lowered to the highest used"
	}
	floor, why := must(param, "all", "US", "cv"), "raised to the least used"
	as := measuredAs(c)
	if isRice(c) {
		as = measuredAs(crop.LongGrainRice)
	}
	if row, ok := find("state_yield_cv", as, crop.StateNames[state], "annual"); ok {
		share := must(param, "all", "US", "share of the state long-run cv")
		if least := row.Value * share; least > floor {
			floor, why = least, fmt.Sprintf("raised to %g of what is usual there, %s", share, row.Period)
		}
	}
	if cv < floor {
		return floor, why
	}
	return cv, ""
}
