package fit

import (
	"fmt"
	"maps"
	"math"
	"slices"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/odds"
)

// Which county yields are taken, judgements: NASS's series of at least so many years, and
// FSA's of all its years, in counties of at least so many base acres. FSA's yields of
// counties with less are often set by their neighbours, which makes them look alike.
const (
	leastHarvested = 15
	leastBaseAcres = 2000
)

// estimated are the commodities whose county yields are at hand.
var estimated = []crop.Commodity{crop.Corn, crop.Soybeans, crop.Wheat, crop.GrainSorghum}

// YieldDependence returns what hangs together among county yields, by commodity: irrigated
// with nonirrigated yields of one county, counties of one State, counties of different
// States. Commodities without such yields have no row.
func YieldDependence(p farm.Past) []Estimate {
	return append(practiceCorrelations(p), countyCorrelations(p)...)
}

// practiceCorrelations returns the correlation of irrigated with nonirrigated yields of one
// county, by commodity: of NASS (per harvested acre) and FSA (per planted acre) together.
func practiceCorrelations(p farm.Past) (rows []Estimate) {
	for _, c := range estimated {
		nass, fsa := practices(p, c)
		rows = append(rows, estimates("irrigated_nonirrigated_yield_corr", c, "one county", "annual", nass, fsa)...)
	}
	return rows
}

// countyCorrelations returns the correlation of the yields of two counties, by commodity:
// of one State, and of different States, each the mean over pairs of counties; of NASS and
// FSA together.
func countyCorrelations(p farm.Past) (rows []Estimate) {
	var within, between []Estimate
	for _, c := range estimated {
		nass, fsa := counties(p, c)
		within = append(within, estimates("within_state_county_yield_corr", c, "mean pair", "before harvest", nass.within, fsa.within)...)
		between = append(between, estimates("between_states_county_yield_corr", c, "mean pair", "before harvest", nass.between, fsa.between)...)
	}
	return append(within, between...)
}

// measure is a correlation of one agency's yields.
type measure struct {
	value, err float64 // err is the standard error; NaN, both, where there are no pairs
	counties   map[string]bool
	years      []crop.CropYear
}

func (m measure) known() bool { return len(m.years) > 0 }

func (m measure) String() string {
	return fmt.Sprintf("%.2f (%.2f; %d counties, %d years)", m.value, m.err, len(m.counties), len(m.years))
}

// together is the mean of two measures, each weighted by one over its squared error; of one
// alone where the other has no pairs.
func together(a, b measure) measure {
	switch {
	case !a.known():
		return b
	case !b.known():
		return a
	}
	wa, wb := 1/(a.err*a.err), 1/(b.err*b.err)
	m := measure{value: (wa*a.value + wb*b.value) / (wa + wb), err: 1 / math.Sqrt(wa+wb), counties: maps.Clone(a.counties)}
	maps.Copy(m.counties, b.counties)
	m.years = slices.Compact(slices.Sorted(slices.Values(slices.Concat(a.years, b.years))))
	return m
}

// estimates returns the row of both measures together; none where neither has pairs.
func estimates(param string, c crop.Commodity, region, key string, nass, fsa measure) []Estimate {
	m := together(nass, fsa)
	if !m.known() {
		return nil
	}
	e := Estimate{Param: param, Commodity: string(c), Region: region, Key: key, Value: hundredths(m.value), Error: m.err, Count: len(m.counties), Source: "NASS-FSA-county"}
	e.Period = yearsSpan(m.years)
	e.Note = fmt.Sprintf("NASS %s and FSA %s by inverse squared error; n: counties", nass, fsa)
	if !nass.known() || !fsa.known() {
		e.Note = fmt.Sprintf("of one agency, %d years; n: counties", len(m.years))
	}
	return []Estimate{e}
}

func hundredths(x float64) float64 { return rounded(x, 2) }

// practices measures the correlation of irrigated with nonirrigated yields.
func practices(p farm.Past, c crop.Commodity) (nass, fsa measure) {
	return ofPractices(harvested(p, c, farm.Irrigated), harvested(p, c, farm.Nonirrigated), leastHarvested),
		ofPractices(planted(p, c, farm.Irrigated), planted(p, c, farm.Nonirrigated), plantedYears(p))
}

// ofPractices pairs two practices of each county in the years that both have; of the classes
// of wheat the one with the most such years counts.
func ofPractices(irrigated, nonirrigated byCounty, least int) measure {
	pairs, used := pairSums{}, map[string]bool{}
	for _, county := range slices.Sorted(maps.Keys(irrigated)) {
		var a, b yearly
		for _, class := range slices.Sorted(maps.Keys(irrigated[county])) {
			x, y := shared(irrigated[county][class], nonirrigated[county][class])
			if x, y = x.standardized(least), y.standardized(least); x != nil && y != nil && len(x) > len(a) {
				a, b = x, y
			}
		}
		for y := range a {
			pairs.add(y, a[y]*b[y], 1)
		}
		used[county] = a != nil
	}
	return pairs.measure(used)
}

// countyPairs are correlations of two counties.
type countyPairs struct{ within, between, neighbors measure }

// counties measures the correlations of yields, all practices together, of two counties.
func counties(p farm.Past, c crop.Commodity) (nass, fsa countyPairs) {
	return ofCounties(harvested(p, c, farm.AllPractices), leastHarvested), ofCounties(planted(p, c, farm.AllPractices), plantedYears(p))
}

// ofCounties takes of each county the class with the most years. The products of all pairs
// of counties in a year follow from the sums by State:
//
//	within = sum of S^2 - Q,  between = sum of S S' over pairs of States;  S = sum of z, Q = sum of z^2
func ofCounties(of byCounty, least int) countyPairs {
	totals, used := map[crop.CropYear]map[string]stateTotal{}, map[string]bool{}
	for _, county := range slices.Sorted(maps.Keys(of)) {
		var z yearly
		for _, class := range slices.Sorted(maps.Keys(of[county])) {
			if s := of[county][class].standardized(least); len(s) > len(z) {
				z = s
			}
		}
		used[county] = z != nil
		for y, x := range z {
			if totals[y] == nil {
				totals[y] = map[string]stateTotal{}
			}
			t := totals[y][county[:2]]
			totals[y][county[:2]] = stateTotal{t.sum + x, t.squares + x*x, t.counties + 1}
		}
	}
	within, between, near := pairSums{}, pairSums{}, pairSums{}
	for y, states := range totals {
		names := slices.Sorted(maps.Keys(states))
		for i, a := range names {
			s := states[a]
			within.add(y, s.sum*s.sum-s.squares, s.counties*(s.counties-1))
			for _, b := range names[:i] {
				product, pairs := s.sum*states[b].sum, s.counties*states[b].counties
				between.add(y, product, pairs)
				if neighbors(a, b) {
					near.add(y, product, pairs)
				}
			}
		}
	}
	return countyPairs{within.measure(used), between.measure(used), near.measure(used)}
}

// stateTotal sums the deviations of a State's counties in one crop year.
type stateTotal struct{ sum, squares, counties float64 }

// yearly are deviations of a county's yields by crop year.
type yearly map[crop.CropYear]float64

// byCounty are deviations by county and class of wheat.
type byCounty map[string]map[string]yearly

// harvested returns how far NASS's yields are off their robust trend, as a share of it.
func harvested(p farm.Past, c crop.Commodity, practice farm.Practice) byCounty {
	all := byCounty{}
	for series, yields := range p.Harvested {
		if series.Commodity != c || series.Practice != practice {
			continue
		}
		var years []int
		var values []float64
		for _, y := range slices.Sorted(maps.Keys(yields)) {
			if !HeldBack(y) && yields[y] > 0 {
				years, values = append(years, y), append(values, yields[y])
			}
		}
		if len(years) < leastHarvested {
			continue
		}
		off, slope := yearly{}, odds.Slope(years, values)
		for i, y := range years {
			if trend := odds.TrendAtSlope(years, values, slope, y); trend > 0 {
				off[y] = values[i]/trend - 1
			}
		}
		all.put(series.County, series.Class, off)
	}
	return all
}

// planted returns FSA's actual yields as a share of the benchmark yield.
func planted(p farm.Past, c crop.Commodity, practice farm.Practice) byCounty {
	all := byCounty{}
	for _, r := range p.Rows {
		if r.Commodity != c || r.Practice != practice || HeldBack(r.CropYear) || r.BenchmarkYield <= 0 || r.BaseAcres < leastBaseAcres {
			continue
		}
		if all[r.County] == nil {
			all.put(r.County, "", yearly{})
		}
		all[r.County][""][r.CropYear] = r.ActualYield / r.BenchmarkYield
	}
	return all
}

// plantedYears is how many crop years of FSA's tables count.
func plantedYears(p farm.Past) int {
	years := map[crop.CropYear]bool{}
	for _, r := range p.Rows {
		if !HeldBack(r.CropYear) {
			years[r.CropYear] = true
		}
	}
	return len(years)
}

func (b byCounty) put(county, class string, s yearly) {
	if b[county] == nil {
		b[county] = map[string]yearly{}
	}
	b[county][class] = s
}

// shared returns both series in the years that both have.
func shared(a, b yearly) (yearly, yearly) {
	x, y := yearly{}, yearly{}
	for year := range a {
		if v, ok := b[year]; ok {
			x[year], y[year] = a[year], v
		}
	}
	return x, y
}

// standardized returns a series with mean 0 and standard deviation 1 (n in the
// denominator); nil where it has fewer than least years or does not vary.
func (s yearly) standardized(least int) yearly {
	mean, variance, n := 0.0, 0.0, float64(len(s))
	for _, y := range slices.Sorted(maps.Keys(s)) {
		mean += s[y] / n
	}
	for _, y := range slices.Sorted(maps.Keys(s)) {
		variance += (s[y] - mean) * (s[y] - mean) / n
	}
	if len(s) < least || variance < crop.Noise {
		return nil
	}
	z := yearly{}
	for y, x := range s {
		z[y] = (x - mean) / math.Sqrt(variance)
	}
	return z
}

// pairSums are products of paired standardized deviations and the number of pairs, by crop
// year.
type pairSums map[crop.CropYear]pairSum

type pairSum struct{ products, pairs float64 }

func (s pairSums) add(y crop.CropYear, products, pairs float64) {
	s[y] = pairSum{s[y].products + products, s[y].pairs + pairs}
}

// measure returns the correlation with its standard error: years are the sample, so it is
// that of the jackknife that leaves out one crop year at a time.
func (s pairSums) measure(used map[string]bool) measure {
	maps.DeleteFunc(used, func(_ string, is bool) bool { return !is })
	m := measure{counties: used, years: slices.Sorted(maps.Keys(s))}
	m.value, m.err = jackknife(len(m.years), func(out int) float64 {
		products, pairs := 0.0, 0.0
		for i, y := range m.years {
			if i != out {
				products, pairs = products+s[y].products, pairs+s[y].pairs
			}
		}
		return products / pairs
	})
	return m
}

// jackknife returns what of gives with nothing left out (-1), and its standard error from
// leaving out each of n parts in turn.
//
//	error = sqrt((n-1)/n sum (without - mean)^2)
//
// Source: B. Efron and C. Stein, The jackknife estimate of variance, Annals of Statistics 9
// (1981), from memory.
func jackknife(n int, of func(out int) float64) (value, err float64) {
	mean, without := 0.0, make([]float64, n)
	for i := range without {
		without[i] = of(i)
		mean += without[i] / float64(n)
	}
	for _, x := range without {
		err += (x - mean) * (x - mean)
	}
	return of(-1), math.Sqrt(err * float64(n-1) / float64(n))
}
