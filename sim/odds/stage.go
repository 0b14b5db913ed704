package odds

import (
	"time"

	"fencerow/program/crop"
)

// Stage is what a county yield is known from.
type Stage string

// The stages, from the least to the most that is known.
const (
	BeforeHarvest  Stage = "before_harvest"  // nothing but the history
	StateReport    Stage = "state_report"    // USDA's report of the state's yield
	LocalHarvest   Stage = "local_harvest"   // own crop and four other growers or an elevator of the county
	CountyEstimate Stage = "county_estimate" // NASS county estimate
	InsuranceYield Stage = "insurance_yield" // RMA's final county yield
	Final          Stage = "final"           // published by FSA
)

// Stages returns the six stages in order.
func Stages() []Stage {
	return []Stage{BeforeHarvest, StateReport, LocalHarvest, CountyEstimate, InsuranceYield, Final}
}

// CVAtStage returns the standard deviation of a county yield still unknown at a
// stage, as a share of its mean; cv is the coefficient of variation of the
// county's yields before harvest (CountyCV).
//
//	before_harvest   a share of cv by commodity, 1 or more, at least 0.06, at most 0.45
//	state_report     a share of cv by commodity, at least 0.06
//	local_harvest    0.55 cv, at least 0.05
//	county_estimate  0.40 cv, at least 0.04
//	insurance_yield  0.01 (with some misses: ShapeMiss)
//	final            0
//
// The figures are rows of parameters.csv. An unknown stage panics.
func (k *Constants) CVAtStage(c crop.Commodity, stage Stage, cv float64) float64 {
	if stage == Final {
		return 0
	}
	floor, most := k.SpreadBounds(stage)
	if stage == InsuranceYield {
		return floor
	}
	const param = "yield_spread_share"
	share, own := k.find(param, string(c), "US", string(stage))
	if !own {
		share.Value = k.must(param, "all", "US", string(stage))
	}
	return min(most, max(floor, share.Value*min(cv, most)))
}

// SpreadBounds returns the least and the most that CVAtStage gives at a stage before the
// yield is known.
func (k *Constants) SpreadBounds(stage Stage) (least, most float64) {
	return k.must("yield_spread_floor", "all", "US", string(stage)), k.must("county_yield_cv_cap", "all", "US", "cv")
}

// StageFactor returns by what the price-yield correlation of planting time is
// multiplied: 1 before harvest while the market's date is before August of the
// crop year, half of it from August, and 0 at every later stage.
func StageFactor(stage Stage, y crop.CropYear, asOf time.Time) float64 {
	switch {
	case stage != BeforeHarvest:
		return 0
	case asOf.Before(time.Date(y, time.August, 1, 0, 0, 0, 0, asOf.Location())):
		return 1
	}
	return must("price_yield_stage_factor", "all", "US", "from August")
}

// DependenceAtStage returns what a county yield of a commodity hangs together with at a
// stage, beside its correlation with the price. Once the crop is harvested, counties of
// different States no longer do: what is unknown is the error of local estimates.
func DependenceAtStage(c crop.Commodity, stage Stage, price float64) YieldDependence {
	const within, between, pair = "within_state_county_yield_corr", "between_states_county_yield_corr", "mean pair"
	d := YieldDependence{Price: price, Practices: ofCommodity("irrigated_nonirrigated_yield_corr", c, "one county", "annual")}
	if stage == BeforeHarvest {
		d.States, d.Counties = ofCommodity(between, c, pair, "before harvest"), ofCommodity(within, c, pair, "before harvest")
		return d
	}
	d.States, d.Counties = must(between, "all", pair, "after harvest"), must(within, "all", pair, "after harvest")
	return d
}

// ofCommodity returns the number of a commodity, else that of other commodities.
func ofCommodity(param string, c crop.Commodity, region, key string) float64 {
	if row, ok := find(param, string(c), region, key); ok {
		return row.Value
	}
	return must(param, "other", region, key)
}
