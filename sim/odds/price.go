package odds

import (
	"math"

	"fencerow/program/crop"
)

// Price is the distribution of a marketing-year-average price: known months plus a
// lognormal rest. Sigma 0 stands for a known price.
type Price struct {
	Known    crop.Price // part already settled by published months, $/unit
	RestMean crop.Price // mean of the part still open, $/unit
	Sigma    float64    // standard deviation of the logarithm of the open part; 0: known
	Decimals int        // as published; for the caller's rounding
}

// Mean returns the mean price before rounding, $/unit.
func (p Price) Mean() crop.Price { return p.Known + p.RestMean }

// SD returns the standard deviation of the price before rounding, $/unit:
//
//	RestMean sqrt(exp(Sigma^2) - 1)
func (p Price) SD() crop.Price { return p.RestMean * math.Sqrt(math.Expm1(p.Sigma*p.Sigma)) }

// Draw sets dst[i] to the price at shock z[i], a standard normal:
//
//	price = Known + RestMean exp(Sigma z - Sigma^2/2)
//
// rounded by round, which may be nil. The mean of the unrounded price is Mean
// exactly. dst and z have equal length. Allocates nothing.
func (p Price) Draw(dst []crop.Price, z []float64, round func(float64) float64) {
	for i := range dst {
		dst[i] = p.Known + p.RestMean
		if p.Sigma != 0 {
			dst[i] = p.Known + p.RestMean*math.Exp(p.Sigma*(z[i]-p.Sigma/2))
		}
	}
	roundAll(dst, round)
}

func roundAll(dst []float64, round func(float64) float64) {
	if round == nil {
		return
	}
	for i, x := range dst {
		dst[i] = round(x)
	}
}

// NormalP90 is the 90th percentile of the standard normal distribution.
const NormalP90 = 1.2815515655446004
