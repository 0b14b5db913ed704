package paths

import (
	"fmt"
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// lags is how many crop years before the first are looked back at: the oldest of
// the five benchmark years lies six back.
const lags = 6

// County is the base of one farm in one county over some crop years.
type County struct {
	First       crop.CropYear // the years follow each other from it
	Years       int
	Commodities []Commodity
	Loadings    [][]float64 // lower triangle of the correlation of one year's normals: prices, then yields
	Limit       crop.Money  // USD, of all payments of a crop year together
}

// Commodity is one commodity of a County.
type Commodity struct {
	Prices       []crop.Price // mean of each year
	Carry        []float64    // part of last year's standard normal that is left, by year; 0 in the first
	Sigma        []float64    // spread of the log price, by year
	Yields       []crop.Yield // mean of each year
	YieldSD      crop.Yield   // normal, not below 0
	PastPrices   [lags]crop.Price
	PastYields   [lags]crop.Yield
	Terms        []program.Terms // by year
	PaymentYield crop.Yield
	PaymentAcres crop.Acres
	BaseAcres    crop.Acres
}

// check tells of the first thing that does not fit.
func (c County) check() error {
	if n := len(c.Loadings); n != 2*len(c.Commodities) {
		return fmt.Errorf("%d rows of loadings for %d commodities", n, len(c.Commodities))
	}
	if n := len(c.Commodities); n == 0 || 2*n > odds.SharedDimensions {
		return fmt.Errorf("%d commodities, not 1 to %d", n, odds.SharedDimensions/2)
	}
	for i, k := range c.Commodities {
		for name, n := range map[string]int{"prices": len(k.Prices), "carry": len(k.Carry), "sigma": len(k.Sigma), "yields": len(k.Yields), "terms": len(k.Terms)} {
			if n != c.Years {
				return fmt.Errorf("commodity %d has %d %s for %d years", i, n, name, c.Years)
			}
		}
	}
	return nil
}

// Carries returns the Carry and the Sigma of a price whose log error begins with
// spread first and then is x(t) = phi x(t-1) + own e(t).
func Carries(first, own, phi float64, years int) (carry, sigma []float64) {
	carry, sigma = make([]float64, years), make([]float64, years)
	sigma[0] = first
	for t := 1; t < years; t++ {
		sigma[t] = math.Hypot(phi*sigma[t-1], own)
		carry[t] = phi * sigma[t-1] / sigma[t]
	}
	return carry, sigma
}
