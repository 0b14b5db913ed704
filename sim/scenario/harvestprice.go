package scenario

import (
	"math"

	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/sim/position"
)

// insuredPrice names a harvest price.
type insuredPrice struct {
	commodity crop.Commodity
	pair      position.PricePair
}

// HarvestPrices returns the harvest price of crop insurance by scenario, USD per unit: as
// published, else lognormal about the projected price, its logarithm with the volatility
// factor as standard deviation,
//
//	projected x exp(volatility z - volatility^2/2)
//
// rounded as the national price is. It moves with the national price of the crop year. The
// series is shared: read it only.
func (d *Year) HarvestPrices(c crop.Commodity, p position.PricePair) []crop.Price {
	return d.harvestPrice.Of(insuredPrice{c, p}, func() []crop.Price {
		dst := d.Acquire()
		if p.Harvest != 0 {
			for i := range dst {
				dst[i] = p.Harvest
			}
			return dst
		}
		d.Sampler.HarvestPriceShock(c).Into(dst)
		for i, z := range dst {
			dst[i] = program.Round(p.Projected*math.Exp(p.Volatility*(z-p.Volatility/2)), p.Decimals)
		}
		return dst
	})
}
