package position

import (
	"fencerow/program/crop"
	"fencerow/sim/odds"
)

// usualError returns how far the logarithm of a price's mean may be off: the error of
// such a price at its date, but no more than that of USDA's price of November, when the
// crop is in. What is more before harvest, or for later years, is what the seasons to
// come do: the odds have it, and no better model would know it. 0 where the price is
// known.
func (p Price) usualError(k *odds.Constants, c crop.Commodity) float64 {
	if p.Sigma == 0 {
		return 0
	}
	return min(p.WholeSD, k.ErrorAfterHarvest(c))
}
