package odds

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"fencerow/program/crop"
)

// PriceCorrelations are a user's own correlations between the log errors of
// national prices: [corn][soybeans] is that of corn with soybeans. One
// direction is enough.
type PriceCorrelations map[crop.Commodity]map[crop.Commodity]float64

// matrix is a square matrix over the commodities in the order of importance.
type matrix [][]float64

func newMatrix(n int) matrix {
	m := make(matrix, n)
	for i := range m {
		m[i] = make([]float64, n)
		m[i][i] = 1
	}
	return m
}

func (m matrix) set(i, j int, r float64) { m[i][j], m[j][i] = r, r }

// place returns where c stands in the order of importance. An unknown
// commodity is a fault of the caller: it panics.
func place(c crop.Commodity) int {
	i := slices.Index(importance, c)
	if i < 0 {
		panic(fmt.Sprintf("sim/odds: unknown commodity %q", c))
	}
	return i
}

// priceMatrix returns the correlations between prices: measured pairs (user's
// own or estimated), then pairs with
// commodities that follow another, then the user's own again, so that a pair that is
// stated holds exactly.
func priceMatrix(own []pairCorrelation) matrix {
	m := measured("corr_ln_mya_innovations", "US", priceFollows)
	lay := func() {
		for _, p := range own {
			m.set(place(p.a), place(p.b), p.r)
		}
	}
	lay()
	m.follow(priceFollows, must("follower_weight", "all", "US", "price"))
	lay()
	return m
}

// yieldMatrix returns the correlations between the yields of one county.
func yieldMatrix() matrix {
	m := measured("corr_yields_same_state", "median state", yieldFollows)
	m.follow(yieldFollows, must("follower_weight", "all", "US", "yield"))
	return m
}

// measured fills in the pairs of commodities that do not follow another.
func measured(param, region string, follows map[crop.Commodity]crop.Commodity) matrix {
	m := newMatrix(len(importance))
	for i, a := range importance {
		for j, b := range importance[:i] {
			_, aFollows := follows[a]
			_, bFollows := follows[b]
			if aFollows || bFollows {
				continue
			}
			r, ok := between(param, measuredAs(a), measuredAs(b), region, "annual")
			if !ok {
				panic(fmt.Sprintf("sim/odds/parameters.csv: no %s of %s with %s", param, a, b))
			}
			m.set(i, j, r)
		}
	}
	return m
}

// follow fills in the commodities that follow another: their shock is weight
// times that of the one they follow plus a part of their own.
func (m matrix) follow(follows map[crop.Commodity]crop.Commodity, weight float64) {
	leader := func(c crop.Commodity) (int, float64) {
		if of, ok := follows[c]; ok {
			return place(of), weight
		}
		return place(c), 1
	}
	for i, a := range importance {
		for j, b := range importance[:i] {
			la, wa := leader(a)
			lb, wb := leader(b)
			m.set(i, j, wa*wb*m[la][lb])
		}
	}
}

// cholesky returns the lower triangular L with L L' = m; ok is false where m
// is not positive definite. Elements that are zero but for binary noise become
// zero, so that a commodity needs no more streams than it depends on.
func (m matrix) cholesky() (lower matrix, ok bool) {
	const noise = 1e-12
	lower = newMatrix(len(m))
	for i := range m {
		for j := range i + 1 {
			rest := m[i][j]
			for k := range j {
				rest -= lower[i][k] * lower[j][k]
			}
			switch {
			case i == j && rest <= noise:
				return nil, false
			case i == j:
				lower[i][i] = math.Sqrt(rest)
			case math.Abs(rest) < noise:
				lower[i][j] = 0
			default:
				lower[i][j] = rest / lower[j][j]
			}
		}
	}
	return lower, true
}

// pairCorrelation is the correlation of two commodities, a before b.
type pairCorrelation struct {
	a, b crop.Commodity
	r    float64
}

func (p pairCorrelation) String() string { return fmt.Sprintf("%s with %s %g", p.a, p.b, p.r) }

// pairs lists the user's correlations in the agency's order, each pair once.
// It refuses unknown commodities, correlations not between -1 and 1, and a
// pair stated twice with two values.
func (own PriceCorrelations) pairs() ([]pairCorrelation, error) {
	seen := map[[2]crop.Commodity]float64{}
	var list []pairCorrelation
	for _, a := range sortedKeys(own) {
		for _, b := range sortedKeys(own[a]) {
			p := pairCorrelation{a, b, own[a][b]}
			if a.Index() < 0 || b.Index() < 0 {
				return nil, fmt.Errorf("price correlation of %s: not a covered crop", p)
			}
			if a == b || !(math.Abs(p.r) < 1) {
				return nil, fmt.Errorf("price correlation of %s: must be of two crops, between -1 and 1", p)
			}
			if b.Index() < a.Index() {
				p.a, p.b = b, a
			}
			r, twice := seen[[2]crop.Commodity{p.a, p.b}]
			if twice && r != p.r {
				return nil, fmt.Errorf("price correlation of %s: stated as %g as well", p, r)
			}
			if !twice {
				seen[[2]crop.Commodity{p.a, p.b}] = p.r
				list = append(list, p)
			}
		}
	}
	return list, nil
}

func sortedKeys[V any](m map[crop.Commodity]V) []crop.Commodity {
	var keys []crop.Commodity
	for k := range m {
		keys = append(keys, k)
	}
	slices.Sort(keys)
	return keys
}

// Repair is a pair of price correlations that was moved because the user's own and the
// estimated ones cannot all hold: they are not positive definite.
type Repair struct {
	A, B crop.Commodity
	From float64
	To   float64
}

// mostRepaired is the most by which a correlation that the user stated is moved; where
// more is needed the correlations are refused. A judgement.
const mostRepaired = 0.05

// priceLoadings returns the Cholesky factor of the price correlations. Where they are
// not positive definite, the nearest that are take their place, and every pair that
// moved by leastReported or more is returned; where a stated one would move by more
// than mostRepaired the error names the pairs to blame.
func priceLoadings(own PriceCorrelations) (matrix, []Repair, error) {
	list, err := own.pairs()
	if err != nil {
		return nil, nil, err
	}
	stated := priceMatrix(list)
	if lower, ok := stated.cholesky(); ok {
		return lower, nil, nil
	}
	near := stated.nearest()
	for _, p := range list {
		if math.Abs(near[place(p.a)][place(p.b)]-p.r) > mostRepaired {
			return nil, nil, impossible(list)
		}
	}
	lower, ok := near.ridge().cholesky()
	if !ok {
		return nil, nil, impossible(list)
	}
	return lower, repairs(stated, near), nil
}

// leastReported is the least move of a correlation that is reported: one that two
// decimals can show.
const leastReported = 0.0005

// repairs lists what moved, in the order of importance.
func repairs(stated, near matrix) (moved []Repair) {
	for i, a := range importance {
		for j, b := range importance[:i] {
			if math.Abs(near[i][j]-stated[i][j]) >= leastReported {
				moved = append(moved, Repair{b, a, stated[i][j], near[i][j]})
			}
		}
	}
	return moved
}

// ErrCorrelations is the error of stated price correlations that cannot all hold: they are
// not positive definite, and no near ones are.
var ErrCorrelations = errors.New("these price correlations cannot hold together with the others")

// impossible is the error that names the stated pairs which make the correlations not
// positive definite.
func impossible(list []pairCorrelation) error {
	blamed := list
	for i := range list { // one pair alone to blame?
		without := slices.Delete(slices.Clone(list), i, i+1)
		if _, ok := priceMatrix(without).cholesky(); ok {
			blamed = list[i : i+1]
			break
		}
	}
	var names []string
	for _, p := range blamed {
		names = append(names, p.String())
	}
	return fmt.Errorf("%w: %s", ErrCorrelations, strings.Join(names, ", "))
}
