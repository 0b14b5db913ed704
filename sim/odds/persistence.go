package odds

import (
	"math"
)

// PersistentShocks sets dst to the standard normals behind a price when part of the
// surprise of the crop year before persists:
//
//	z = a before + sqrt(1 - a^2) own,  a = min(1, phi sigmaBefore / sigma)
//
// before and own are the shocks of the year before and of the year itself, sigmaBefore
// and sigma the standard deviations of the logarithms of both prices. The log error
// then is x = phi x' + s e, with s such that its standard deviation is sigma. Where
// the price of the year before is known (sigmaBefore 0), z is own. The slices have
// equal length.
func PersistentShocks(dst, before, own []float64, sigmaBefore, sigma float64) {
	if sigmaBefore <= 0 || sigma <= 0 {
		copy(dst, own)
		return
	}
	a := min(1, Persistence()*sigmaBefore/sigma)
	b := math.Sqrt(1 - a*a)
	for i := range dst {
		dst[i] = a*before[i] + b*own[i]
	}
}
