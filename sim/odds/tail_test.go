package odds

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"

	"fencerow/program/crop"
)

// Corn and soybeans, correlation 0.68, both below what each is below in 1 of 100:
// as often as the bivariate distributions by quadrature have it, and clearly more
// often under Student's. Every single shock stays a standard normal.
func TestExtremesComeTogether(t *testing.T) {
	d := NewScenarios(2, 1<<17)
	limit := quantile(0.01)
	chances := map[bool]float64{}
	for _, together := range []bool{false, true} {
		s := newSampler(t, d)
		if together {
			s.ExtremesTogether()
		}
		corn, soybeans := s.PriceShock(crop.Corn), s.PriceShock(crop.Soybeans)
		yield := s.YieldShock(YieldKey{"99001", "all", crop.Corn}, YieldDependence{Price: -0.4, Counties: 0.3}).All()
		both := make([]float64, d.N())
		for i := range both {
			if corn[i] < limit && soybeans[i] < limit {
				both[i] = 1
			}
		}
		m := Summarize(both, d)
		chances[together] = m.Mean
		want := jointLower(0.01, 0.68, together)
		if math.Abs(m.Mean-want) > 4*m.StandardError+1e-4 {
			t.Errorf("together %v: %.5f, want %.5f, standard error %.5f", together, m.Mean, want, m.StandardError)
		}
		for name, z := range map[string][]float64{"corn": corn, "soybeans": soybeans, "yield": yield} {
			mean, sd := stat.PopMeanStdDev(z, nil)
			if math.Abs(mean) > 0.01 || math.Abs(sd-1) > 0.01 || math.Abs(Share(z, func(x float64) bool { return x < limit })-0.01) > 0.001 {
				t.Errorf("together %v, %s: mean %.4f, spread %.4f", together, name, mean, sd)
			}
		}
	}
	if chances[true] < 1.4*chances[false] {
		t.Errorf("chances %v: extremes do not come together", chances)
	}
}

// jointLower is the chance that two shocks of correlation r are both below their
// p, by quadrature over the first: under the Gaussian copula N((q - r x)/sqrt(1 -
// r^2)), under Student's with v degrees of freedom the t with v+1 of (q - r x)
// sqrt((v+1)/((v+x^2)(1-r^2))).
func jointLower(p, r float64, student bool) float64 {
	const steps, far = 200_000, 400.0
	freedom := tailFreedom()
	one, next := distuv.StudentsT{Sigma: 1, Nu: freedom}, distuv.StudentsT{Sigma: 1, Nu: freedom + 1}
	q := quantile(p)
	low := -9.0
	if student {
		q, low = one.Quantile(p), -far
	}
	sum, step := 0.0, (q-low)/steps
	for i := range steps {
		x := low + (float64(i)+0.5)*step
		if student {
			sum += one.Prob(x) * next.CDF((q-r*x)*math.Sqrt((freedom+1)/((freedom+x*x)*(1-r*r))))
			continue
		}
		sum += density(x) * below((q-r*x)/math.Sqrt(1-r*r))
	}
	return sum * step
}
