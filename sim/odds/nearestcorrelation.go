package odds

import (
	"math"

	"gonum.org/v1/gonum/mat"
)

// nearest returns the correlation matrix nearest to m in the sum of squared
// differences: alternating projections on the positive semidefinite matrices and
// on those with ones in the diagonal, with Dykstra's correction of the first.
//
// Source: N. J. Higham, "Computing the nearest correlation matrix", IMA Journal
// of Numerical Analysis 22 (2002).
func (m matrix) nearest() matrix {
	const enough, most = 1e-13, 20_000
	n := len(m)
	y, correction := mat.NewSymDense(n, nil), mat.NewSymDense(n, nil)
	for i := range m {
		for j := range i + 1 {
			y.SetSym(i, j, m[i][j])
		}
	}
	for range most {
		r := less(y, correction)
		x := semidefinite(r)
		correction = less(x, r)
		moved := 0.0
		for i := range n {
			for j := range i + 1 {
				next := x.At(i, j)
				if i == j {
					next = 1
				}
				moved = max(moved, math.Abs(next-y.At(i, j)))
				y.SetSym(i, j, next)
			}
		}
		if moved < enough {
			break
		}
	}
	near := newMatrix(n)
	for i := range n {
		for j := range i {
			near.set(i, j, y.At(i, j))
		}
	}
	return near
}

// less returns a - b.
func less(a, b *mat.SymDense) *mat.SymDense {
	var minus, out mat.SymDense
	minus.ScaleSym(-1, b)
	out.AddSym(a, &minus)
	return &out
}

// semidefinite returns the positive semidefinite matrix nearest to r: its
// negative eigenvalues become 0.
func semidefinite(r *mat.SymDense) *mat.SymDense {
	var eigen mat.EigenSym
	if !eigen.Factorize(r, true) {
		panic("sim/odds: eigenvalues of a symmetric matrix were not found")
	}
	values := eigen.Values(nil)
	var vectors mat.Dense
	eigen.VectorsTo(&vectors)
	n := r.SymmetricDim()
	x := mat.NewSymDense(n, nil)
	for i := range n {
		for j := range i + 1 {
			sum := 0.0
			for k, value := range values {
				if value > 0 {
					sum += value * vectors.At(i, k) * vectors.At(j, k)
				}
			}
			x.SetSym(i, j, sum)
		}
	}
	return x
}

// ridge shrinks all correlations so little toward 0 that the matrix becomes positive
// definite.
func (m matrix) ridge() matrix {
	const part = 1e-9
	out := newMatrix(len(m))
	for i := range m {
		for j := range i {
			out.set(i, j, (1-part)*m[i][j])
		}
	}
	return out
}
