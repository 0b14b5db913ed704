package odds

import (
	"fmt"
	"math"
	"slices"
	"sync"

	"fencerow/program/crop"
)

// YieldKey names one county yield.
type YieldKey struct {
	County    string // the agency's code
	Practice  string // "all", "irrigated" or "nonirrigated"
	Commodity crop.Commodity
}

// YieldDependence holds the correlations of one county yield with the price and with other
// yields of its commodity.
type YieldDependence struct {
	Price     float64 // with the price
	States    float64 // with the yield of a county in another State
	Counties  float64 // with the yield of another county of the State
	Practices float64 // irrigated with nonirrigated of one county
}

// Sampler makes the standard normals behind the prices and county yields of
// one crop year. Several goroutines may use one Sampler. The slices of
// PriceShock are shared: read them only.
//
// Dimensions of the Sobol sequence: in the order of importance each commodity
// has two, one for its price and one for the nation's yields. A State takes some of the
// latter, the dimensions of a county start at a hash of its code and fit its State's, at others
// in every replicate: where two States or counties share a dimension, or two dimensions fit badly,
// only one replicate in many suffers. Each dimension is scrambled with a key of its own for
// every State and county, so that they are independent, while a county and the prices
// together fill their space evenly. Every crop year takes the points in an order of its
// own, so that years are independent.
type Sampler struct {
	scenarios Scenarios
	cropYear  crop.CropYear
	prices    matrix // Cholesky factors
	repairs   []Repair
	yields    matrix
	price     []func() []float64 // shocks, each made when first asked for
	nation    []func() []float64
	states    sync.Map         // by stateKey, the same of a State
	indices   func() []uint32  // of the points, by scenario
	pastYear  func() []int     // by scenario, a place of PastYears; nil without FromHistory
	stretch   func() []float64 // by scenario, the factor of ExtremesTogether; nil without it
	fresh     func() []float64 // a series for normals; nil: new memory
}

// NewSampler returns the sampler of one crop year. The user's own price correlations
// replace the estimated ones; those that cannot all hold are moved a little (Repairs),
// or the error names them.
func NewSampler(d Scenarios, y crop.CropYear, own PriceCorrelations) (*Sampler, error) {
	prices, repairs, err := priceLoadings(own)
	if err != nil {
		return nil, err
	}
	yields, ok := yieldMatrix().cholesky()
	if !ok {
		return nil, fmt.Errorf("correlations of county yields are not positive definite")
	}
	s := &Sampler{scenarios: d, cropYear: y, prices: prices, yields: yields, repairs: repairs}
	s.begin()
	return s, nil
}

// begin sets what is made when it is first asked for.
func (s *Sampler) begin() {
	s.indices = sync.OnceValue(s.allIndices)
	s.price = s.shared("price", s.prices, 0)
	s.nation = s.shared("national yield", s.yields, 1)
}

// Part returns the sampler of some replicates (Scenarios.Part), whose normals are those of
// the whole; fresh gives the memory for them. Not for a sampler FromHistory.
func (s *Sampler) Part(first, n int, fresh func() []float64) *Sampler {
	part := &Sampler{scenarios: s.scenarios.Part(first, n), cropYear: s.cropYear, prices: s.prices, yields: s.yields, repairs: s.repairs, fresh: fresh}
	part.begin()
	part.indices = func() []uint32 { return s.indices()[first*s.scenarios.Points : (first+n)*s.scenarios.Points] }
	if s.stretch != nil {
		part.ExtremesTogether()
	}
	return part
}

// Repairs returns the price correlations that were moved so that all can hold; nil
// where none had to be.
func (s *Sampler) Repairs() []Repair { return s.repairs }

// shared returns the shocks that all counties and farms share, by commodity in the
// order of importance: correlated by loadings, from every second dimension of the
// Sobol sequence, the first given.
func (s *Sampler) shared(name string, loadings matrix, first int) []func() []float64 {
	var shocks []func() []float64
	for i := range importance {
		shocks = append(shocks, sync.OnceValue(func() []float64 {
			shock := Shock{sampler: s}
			for j, loading := range loadings[i][:i+1] {
				shock.addColumn(loading, name+"|"+string(importance[j]), func(int) int { return first + 2*j })
			}
			return shock.All()
		}))
	}
	return shocks
}

// ownDimension returns a dimension for a county or farm: offset places after a start
// that a hash of the name, crop year and replicate gives.
func (s *Sampler) ownDimension(name string, replicate, offset int) int {
	shared := 2 * len(importance)
	others := uint64(len(sobolTable()) - shared)
	start := streamKey(s.scenarios.Seed, replicate, s.cropYear, name)
	return shared + int((start%others+uint64(offset))%others)
}

// stateDimension returns a dimension for a State: that of the nation's shock of another
// commodity, offset places and two to nine after the first, as a hash says in each
// replicate. So a State fills its space evenly with the prices and the nation's shocks of
// the leading commodities, and two States rarely have one dimension.
func (s *Sampler) stateDimension(state string, replicate, offset int) int {
	const beyond, places = 2, 8
	start := int(streamKey(s.scenarios.Seed, replicate, s.cropYear, "state place|"+state) % places)
	return 2*((beyond+start+offset)%len(importance)) + 1
}

// countyDimension returns a dimension for commodity j of a county and practice, whose block
// starts offset block: block + j places after the county's start, or one or two times the
// length of all blocks further where that fits badly with its State's dimension of the
// commodity. So all of one county differ.
func (s *Sampler) countyDimension(county string, replicate, block, j int) (dimension int) {
	good := fits(s.stateDimension(stateOf(county), replicate, j), s.scenarios.pointBits())
	blocks, others := len(practices)*len(importance), len(sobolTable())-2*len(importance)
	for offset := block + j; offset < others; offset += blocks {
		if dimension = s.ownDimension("place|"+county, replicate, offset); good[dimension] {
			break
		}
	}
	return dimension
}

// stateOf returns the State of a county by its two digits.
func stateOf(county string) string { return county[:min(2, len(county))] }

// addTo adds weight times x to dst, element by element.
func addTo(dst []float64, weight float64, x []float64) {
	for i, v := range x {
		dst[i] += weight * v
	}
}

// PriceShock returns the N standard normals behind the price of c: the log
// error of the price in units of its standard deviation. It depends on seed,
// number of scenarios, crop year, commodity and price correlations only. Read it only: the
// slice is shared. An unknown commodity panics.
func (s *Sampler) PriceShock(c crop.Commodity) []float64 {
	if s.pastYear != nil {
		return s.pastPriceShock(c)
	}
	shock := s.price[place(c)]()
	if s.stretch == nil {
		return shock
	}
	stressed := slices.Clone(shock)
	s.stress(stressed, 0)
	return stressed
}

// YieldShock returns how the standard normals behind one county yield are made:
//
//	z = Price x price shock + national x nation's shock + state x State's shock + own x own shock
//	national = sqrt(max(0, States - Price^2)),  state = sqrt(max(0, Counties - national^2 - Price^2))
//	own = sqrt(1 - Price^2 - national^2 - state^2)
//
// The shocks of a nation, State or county correlate between commodities as yields of one
// state do. With a practice, the county's own shock is followed by a part of the
// practice's own, and the State's is cut so that two practices of equal dependence
// correlate by Practices, or by States where that is more. Correlations beyond -1 or 1
// are cut.
func (s *Sampler) YieldShock(k YieldKey, dep YieldDependence) *Shock {
	loadings := dep.loadings(k.Practice != "all" && k.Practice != "")
	i := place(k.Commodity)
	shock := &Shock{sampler: s, whole: true}
	if loadings.price != 0 {
		shock.parts = append(shock.parts, shockPart{weight: loadings.price, series: s.price[i]()})
	}
	if loadings.nation != 0 {
		shock.parts = append(shock.parts, shockPart{weight: loadings.nation, series: s.nation[i]()})
	}
	if loadings.state != 0 {
		shock.parts = append(shock.parts, shockPart{weight: loadings.state, series: s.state(stateOf(k.County), i)})
	}
	shock.addOwn(loadings.county, k.County, "all", i)
	shock.addOwn(loadings.practice, k.County, k.Practice, i)
	return shock
}

// stateKey names the shock of a State's yields.
type stateKey struct {
	state     string
	commodity int // its place in the order of importance
}

// state returns the shock that a State's counties share beside the nation's, of
// commodity i: made once for all of them.
func (s *Sampler) state(name string, i int) []float64 {
	once, _ := s.states.LoadOrStore(stateKey{name, i}, sync.OnceValue(func() []float64 {
		shock := Shock{sampler: s}
		for j, loading := range s.yields[i][:i+1] {
			shock.addColumn(loading, "state yield|"+name+"|"+string(importance[j]), func(replicate int) int {
				return s.stateDimension(name, replicate, j)
			})
		}
		return shock.All()
	}))
	return once.(func() []float64)()
}

// loadings are the weights of the five independent parts of a county yield;
// their squares add to one.
type loadings struct{ price, nation, state, county, practice float64 }

func (d YieldDependence) loadings(split bool) loadings {
	price := min(1, max(-1, d.Price))
	states := min(1, max(d.States, price*price))
	counties := min(1, max(d.Counties, states))
	one := 1.0 // what a county's yields have in common
	if split {
		one = min(1, max(d.Practices, states))
		counties = min(counties, one)
	}
	return loadings{price: price, nation: math.Sqrt(states - price*price), state: math.Sqrt(counties - states), county: math.Sqrt(one - counties), practice: math.Sqrt(1 - one)}
}

// practices in the order of their dimensions within a county.
var practices = []string{"all", "irrigated", "nonirrigated"}

// addOwn adds weight times the part of commodity i's yield that is the county's (and
// practice's) own. The dimensions of one county in a replicate differ from each other:
// they follow on each other from the county's start.
func (k *Shock) addOwn(weight float64, county, practice string, i int) {
	if weight == 0 {
		return
	}
	block := max(0, slices.Index(practices, practice)) * len(importance)
	for j, loading := range k.sampler.yields[i][:i+1] {
		name := "county yield|" + county + "|" + practice + "|" + string(importance[j])
		k.addColumn(weight*loading, name, func(replicate int) int {
			return k.sampler.countyDimension(county, replicate, block, j)
		})
	}
}
