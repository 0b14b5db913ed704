package program

import (
	"fmt"

	"fencerow/program/crop"
	"fencerow/program/law"
)

// YieldUpdate are the terms on which an owner could renew a PLC payment yield,
// once, for crop year 2014 and again for 2020.
type YieldUpdate struct {
	AverageShare crop.Share // of the farm's average yield
	PlugShare    crop.Share // of the county's average yield: the least that a year counts
	Factor       crop.Share // of the commodity: 1 in 2014; from 2020 national yields of 2008-2012 over 2013-2017
}

// YieldUpdateFor returns the terms for commodity c in crop year y.
func YieldUpdateFor(c crop.Commodity, y crop.CropYear) (YieldUpdate, error) {
	average, err := law.Find("yield_update_average_share", c, y)
	if err != nil {
		return YieldUpdate{}, fmt.Errorf("program: no payment yield update: %w", err)
	}
	plug, err := law.Find("yield_update_plug_share", c, y)
	if err != nil {
		return YieldUpdate{}, fmt.Errorf("program: no payment yield update: %w", err)
	}
	u := YieldUpdate{AverageShare: average.Number, PlugShare: plug.Number, Factor: 1}
	if factor, err := law.Find("yield_update_factor", c, y); err == nil { // from 2020
		u.Factor = factor.Number
	}
	return u, nil
}

// Yield returns the renewed payment yield, units/acre, unrounded: a share of the
// average of the farm's yields per planted acre in the five years (2008-2012 or
// 2013-2017), years without plantings left out, each raised to a share of the
// county's average where lower; times the factor. Without any yield it is 0.
//
//	yield = AverageShare x mean(max(yields, PlugShare x county)) x Factor
//
// That FSA records payment yields in whole units is from memory only, so nothing
// is rounded here: a caller that shows one may.
//
// Source: 7 U.S.C. 9013(d); for 2014 from memory. Example:
// testdata/published/michigan-state-2020-yield-update.json.
func (u YieldUpdate) Yield(yields []crop.Yield, countyAverage crop.Yield) crop.Yield {
	if len(yields) == 0 {
		return 0
	}
	sum := 0.0
	for _, y := range yields {
		sum += max(y, u.PlugShare*countyAverage)
	}
	return u.AverageShare * sum / float64(len(yields)) * u.Factor
}

// SeedCottonYield returns a seed cotton yield in pounds for an upland cotton
// yield (pounds of lint) and factor (2.4).
//
// Source: 7 U.S.C. 9013(d)(5),(e).
func SeedCottonYield(uplandYield crop.Yield, factor float64) crop.Yield { return factor * uplandYield }

// SeedCottonFactor returns that factor.
func SeedCottonFactor(y crop.CropYear) (float64, error) {
	row, err := law.Find("seed_cotton_yield_factor", crop.SeedCotton, y)
	return row.Number, err
}
