package odds

import (
	"fmt"
	"math"
	"math/bits"
	"slices"
	"sync"

	"fencerow/program/crop"
)

// PracticeCorrelation is that of the irrigated with the nonirrigated yield of
// one commodity in one county. A judgement.
const PracticeCorrelation = 0.6

// YieldKey names one county yield.
type YieldKey struct {
	County    string // the agency's code
	Practice  string // "all", "irrigated" or "nonirrigated"
	Commodity crop.Commodity
}

// YieldDependence says how strongly one county yield moves with others.
type YieldDependence struct {
	Price     float64 // with the price of its commodity
	Counties  float64 // with the yield of the commodity in another county
	Practices float64 // irrigated with nonirrigated in one county
}

// Sampler makes the standard normals behind the prices and county yields of
// one crop year. Several goroutines may use one Sampler. The slices of
// PriceShock are shared: read them only.
//
// Dimensions of the Sobol sequence: in the order of importance each commodity
// has two, one for its price and one for the nation's yields. A county is given
// a place among the others by a hash of its code, another one in every
// replicate: where two counties meet on one dimension, or one county's
// dimensions fit badly, only one replicate in many suffers. Each dimension is
// scrambled with a key of its own for every county, so that counties are
// independent, while a county and the prices are evenly spread together. Every crop
// year takes the points in an order of its own, so that years are independent.
type Sampler struct {
	draws    Draws
	cropYear crop.CropYear
	prices   matrix // Cholesky factors
	repairs  []Repair
	yields   matrix
	price    []func() []float64 // shocks, each made when first asked for
	nation   []func() []float64
	indices  func() []uint32 // of the points, by draw
}

// NewSampler returns the sampler of one crop year. The user's own correlations
// replace the estimated ones; those that cannot hold together with the others are
// moved a little (Repairs), or the error names them.
func NewSampler(d Draws, y crop.CropYear, own PriceCorrelations) (*Sampler, error) {
	prices, repairs, err := priceLoadings(own)
	if err != nil {
		return nil, err
	}
	yields, ok := yieldMatrix().cholesky()
	if !ok {
		return nil, fmt.Errorf("correlations of county yields are not positive definite")
	}
	s := &Sampler{draws: d, cropYear: y, prices: prices, yields: yields, repairs: repairs}
	s.indices = sync.OnceValue(s.allIndices)
	s.price = s.shared("price", prices, 0)
	s.nation = s.shared("national yield", yields, 1)
	return s, nil
}

// Repairs returns the price correlations that were moved because the user's own
// could not hold together with the others; nil where they could.
func (s *Sampler) Repairs() []Repair { return s.repairs }

// shared returns the shocks that everything shares: each commodity's sum over
// its own dimension and those before it. Dimensions are every second one from
// the first.
func (s *Sampler) shared(name string, loadings matrix, first int) []func() []float64 {
	var shocks []func() []float64
	for i := range importance {
		shocks = append(shocks, sync.OnceValue(func() []float64 {
			dst := make([]float64, s.draws.N())
			for j, loading := range loadings[i][:i+1] {
				s.add(dst, loading, name+"|"+string(importance[j]), func(int) int { return first + 2*j })
			}
			return dst
		}))
	}
	return shocks
}

// ownDimension returns one of the dimensions for counties and farms: number away
// places from a start that a hash of the name, crop year and replicate gives.
func (s *Sampler) ownDimension(name string, replicate, away int) int {
	shared := 2 * len(importance)
	others := uint64(len(sobolTable()) - shared)
	start := streamKey(s.draws.Seed, replicate, s.cropYear, name)
	return shared + int((start%others+uint64(away))%others)
}

// add adds weight times N independent standard normals to dst, those of each
// replicate from the dimension (an index of sobolTable) it is given, scrambled
// with the name.
func (s *Sampler) add(dst []float64, weight float64, name string, dimension func(replicate int) int) {
	if weight == 0 {
		return
	}
	n := min(s.draws.Points, tilePoints)
	points, z := make([]uint32, n), make([]float64, n)
	for r := range s.draws.Replicates {
		c := column{&sobolTable()[dimension(r)], streamKey(s.draws.Seed, r, s.cropYear, name)}
		for from := r * s.draws.Points; from < (r+1)*s.draws.Points; from += n {
			c.fill(z, points, s.indices()[from:from+n])
			addTo(dst[from:from+n], weight, z)
		}
	}
}

// tilePoints is how many points are made at once where there are so many: a
// power of two.
const tilePoints = 256

// column is one coordinate of one replicate: a Sobol dimension under a scramble.
type column struct {
	dimension *directions
	key       uint64
}

// fill sets dst to the standard normals of the points with the indices given, one
// block as order makes it; points is room of the same length.
func (c column) fill(dst []float64, points, indices []uint32) {
	c.dimension.fill(points, indices)
	scramble(points, c.key)
	normals(dst, points)
}

// allIndices are the indices that all draws take, as order gives them.
func (s *Sampler) allIndices() []uint32 {
	dst, n := make([]uint32, s.draws.N()), min(s.draws.Points, tilePoints)
	for from := 0; from < len(dst); from += n {
		s.order(dst[from:from+n], from/s.draws.Points, from%s.draws.Points)
	}
	return dst
}

// order sets dst to the indices of the points that draws first, first+1 ... of a
// replicate take in this crop year. Its length is a power of two that divides
// first. It shuffles the draws by a nested scramble of the indices, so that a
// block of draws takes one block of points, and what is evenly spread within a
// year has nothing to do with another year's.
//
// Source: A. B. Owen, Latin supercube sampling for very high-dimensional
// simulations, ACM Transactions on Modeling and Computer Simulation 8 (1998).
func (s *Sampler) order(dst []uint32, replicate, first int) {
	key := streamKey(s.draws.Seed, replicate, s.cropYear, "order")
	unused := sobolBits - s.draws.pointBits()
	for i := range dst {
		reversed := bits.Reverse32(uint32(first+i)) >> unused
		shuffled := scrambleDigits(reversed, key) << unused
		dst[i] = bits.Reverse32(shuffled)
	}
}

// addTo adds weight times x to dst, element by element.
func addTo(dst []float64, weight float64, x []float64) {
	for i, v := range x {
		dst[i] += weight * v
	}
}

// PriceShock returns the N standard normals behind the price of c: the log
// error of the price in units of its standard deviation. It depends on seed,
// draws, crop year, commodity and price correlations only. Read it only: the
// slice is shared. An unknown commodity panics.
func (s *Sampler) PriceShock(c crop.Commodity) []float64 { return s.price[place(c)]() }

// YieldShock returns the N standard normals behind one county yield:
//
//	z = Price x price shock + national x national shock + own x own shock
//	national = sqrt(max(0, Counties - Price^2)),  own = sqrt(1 - Price^2 - national^2)
//
// The own shocks of one county correlate between commodities as yields of one
// state do. With a practice, the own shock is the county's plus a part of the
// practice's own, so that two practices of equal dependence correlate by
// Practices, or by Counties where that is more. Correlations beyond -1 or 1
// are cut. The slice is the caller's.
func (s *Sampler) YieldShock(k YieldKey, dep YieldDependence) []float64 {
	loadings := dep.loadings(k.Practice != "all" && k.Practice != "")
	i := place(k.Commodity)
	dst := make([]float64, s.draws.N())
	if loadings.price != 0 {
		addTo(dst, loadings.price, s.price[i]())
	}
	if loadings.nation != 0 {
		addTo(dst, loadings.nation, s.nation[i]())
	}
	s.addOwn(dst, loadings.county, k.County, "all", i)
	s.addOwn(dst, loadings.practice, k.County, k.Practice, i)
	return dst
}

// loadings are the weights of the four independent parts of a county yield;
// their squares add to one.
type loadings struct{ price, nation, county, practice float64 }

func (d YieldDependence) loadings(split bool) loadings {
	price := min(1, max(-1, d.Price))
	counties := min(1, max(d.Counties, price*price))
	own := 1 - counties
	l := loadings{price: price, nation: math.Sqrt(counties - price*price), county: math.Sqrt(own)}
	if split && own > 0 {
		common := min(own, max(0, d.Practices-counties))
		l.county, l.practice = math.Sqrt(common), math.Sqrt(own-common)
	}
	return l
}

// practices in the order of their dimensions within a county.
var practices = []string{"all", "irrigated", "nonirrigated"}

// addOwn adds weight times the shock that a county (and practice) alone gives
// to the yield of commodity i. All streams of one county have dimensions of
// their own in a replicate: they start at the county's place.
func (s *Sampler) addOwn(dst []float64, weight float64, county, practice string, i int) {
	block := max(0, slices.Index(practices, practice)) * len(importance)
	for j, loading := range s.yields[i][:i+1] {
		name := "county yield|" + county + "|" + practice + "|" + string(importance[j])
		s.add(dst, weight*loading, name, func(replicate int) int { return s.ownDimension("place|"+county, replicate, block+j) })
	}
}
