package odds

import (
	"math"
)

// PersistentShocks returns the standard normals of a price whose crop year follows
// another one: the part of last year's surprise that is left, and this year's own.
//
//	z = a before + sqrt(1 - a^2) own,  a = min(1, phi sigmaBefore / sigma)
//
// before and own are the shocks of the year before and of the year itself,
// sigmaBefore and sigma the spreads of the logarithms of both prices. So the log
// error is x = phi x' + s e, with s what sigma asks for; where the year before
// has no spread, z is own. dst is set to z; the slices have equal length.
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
