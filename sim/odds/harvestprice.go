package odds

import (
	"math"

	"fencerow/program/crop"
)

// HarvestPriceShock returns how the standard normals behind the harvest price of crop
// insurance are made, the surprise over the projected price. It correlates with the shock of
// the marketing-year average price as measured, and with county yields through that alone:
// past years ask for no more (docs/validation.md). No other shock depends on whether it is
// asked for.
func (s *Sampler) HarvestPriceShock(c crop.Commodity) *Shock {
	price := HarvestPriceCorrelation()
	shock := &Shock{sampler: s, whole: true, parts: []shockPart{{weight: price, series: s.price[place(c)]()}}}
	shock.addColumn(math.Sqrt(1-price*price), "harvest price|"+string(c), func(replicate int) int {
		return s.ownDimension("harvest price place", replicate, place(c))
	})
	return shock
}

// HarvestPriceCorrelation returns the correlation of the logarithm of the harvest price over
// the projected price with that of the marketing-year average price over its projection.
func HarvestPriceCorrelation() float64 {
	return must("harvest_price_corr", "all", "US", "national price")
}
