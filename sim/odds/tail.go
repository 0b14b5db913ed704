package odds

import (
	"math"
	"sync"

	"gonum.org/v1/gonum/stat/distuv"
)

// ExtremesTogether makes extreme prices and yields of one crop year come together more
// often than their correlations alone do: a Student-t copula in place of the Gaussian
// one. Every price and yield keeps its own distribution. It is a stress, not the usual
// odds. Call it before the first shock is made.
//
//	z' = quantile(T(z / sqrt(w))),  w = chi-squared / degrees of freedom, one for all of a year
//
// T is Student's distribution with as many degrees of freedom as w, a row of
// parameters.csv. Source: S. Demarta and A. J. McNeil, The t copula and related
// copulas, International Statistical Review 73 (2005), from memory.
func (s *Sampler) ExtremesTogether() {
	s.stretch = sync.OnceValue(func() []float64 {
		freedom := tailFreedom()
		column := Shock{sampler: s}
		column.addColumn(1, "extremes together", func(r int) int { return s.ownDimension("extremes together", r, 0) })
		chi := distuv.ChiSquared{K: freedom}
		stretch := column.All()
		for i, z := range stretch {
			stretch[i] = 1 / math.Sqrt(chi.Quantile(below(z))/freedom)
		}
		return stretch
	})
}

func tailFreedom() float64 { return must("tail_copula_degrees_of_freedom", "all", "US", "t") }

// stress applies ExtremesTogether to the normals of scenarios from, from+1 ..., in
// place; without it they stay as they are.
func (s *Sampler) stress(z []float64, from int) {
	if s.stretch == nil {
		return
	}
	stretch, t := s.stretch()[from:from+len(z)], distuv.StudentsT{Sigma: 1, Nu: tailFreedom()}
	for i, x := range z {
		// the lower tail, where chances are exact
		z[i] = math.Copysign(-quantile(t.CDF(-math.Abs(x*stretch[i]))), x)
	}
}
