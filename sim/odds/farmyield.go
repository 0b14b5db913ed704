package odds

import (
	"fmt"
	"math"

	"fencerow/program/crop"
)

// FarmOwnCV returns the standard deviation of a farm's own part of its yield as a
// share of its mean: how a farm's yields vary beside those of its county.
//
//	own = cv x sqrt(m^2 - 1),  m = 1.6 times the standard deviation of the county yield
//
// cv is that of the county yield before harvest (CountyCV). What is known of the
// county later says nothing of the farm's own part.
func FarmOwnCV(cv float64) float64 {
	m := farmOverCounty()
	return cv * math.Sqrt(m*m-1)
}

// FarmOwnCVFrom says what the whole standard deviation of a farm's yield rests on.
func FarmOwnCVFrom() string {
	return fmt.Sprintf("%g times the county's (assumed)", farmOverCounty())
}

// farmOverCounty is the standard deviation of a farm's yield over that of its
// county's.
func farmOverCounty() float64 {
	return must("farm_over_county_yield_sd", "all", "US", "multiplier on county CV")
}

// FarmShock returns how the standard normals behind the own part of one farm's
// yield of a commodity are made: independent of its county, of prices and of every
// other farm. They depend on seed, number of scenarios,
// crop year, farm and commodity only.
func (s *Sampler) FarmShock(farm string, c crop.Commodity) *Shock {
	shock := &Shock{sampler: s, whole: true}
	shock.addColumn(1, "farm yield|"+farm+"|"+string(c), func(replicate int) int {
		return s.ownDimension("farm place|"+farm, replicate, place(c))
	})
	return shock
}
