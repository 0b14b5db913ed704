package fit

import (
	"fmt"
	"maps"
	"math"
	"math/rand/v2"
	"reflect"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"

	"fencerow/program/crop"
	"fencerow/program/farm"
	"fencerow/sim/invented"
)

// The correlations by source, and what rests on both. An outside count over all years of
// 2014-2023 and NASS's series: irrigated with nonirrigated corn .41 and .43, soybeans .41 and
// .47, wheat .46 and .58, grain sorghum (FSA) .42.
func TestPracticeCorrelations(t *testing.T) {
	p := agencies(t, "irrigated with nonirrigated yields")
	outside := map[crop.Commodity][2]float64{crop.Corn: {.41, .43}, crop.Soybeans: {.41, .47}, crop.Wheat: {.46, .58}, crop.GrainSorghum: {0, .42}}
	const near = 0.1 // other years and fewer counties
	for _, c := range estimated {
		nass, fsa := practices(p, c)
		t.Logf("%s: NASS %s, FSA %s", c, nass, fsa)
		if want := outside[c]; nass.known() && math.Abs(nass.value-want[0]) > near || math.Abs(fsa.value-want[1]) > near {
			t.Errorf("%s: NASS %s, FSA %s, outside %v", c, nass, fsa, want)
		}
	}
	holdRows(t, practiceCorrelations(p))
}

// Counties of one State, of different States and, beside them, of neighbouring States.
func TestCountyCorrelations(t *testing.T) {
	p := agencies(t, "correlations of county yields")
	for _, c := range estimated {
		nass, fsa := counties(p, c)
		t.Logf("%s: one State NASS %s, FSA %s", c, nass.within, fsa.within)
		t.Logf("%s: different States NASS %s, FSA %s", c, nass.between, fsa.between)
		near := together(nass.neighbors, fsa.neighbors)
		t.Logf("%s: neighbouring States NASS %s, FSA %s, together %s", c, nass.neighbors, fsa.neighbors, near)
		if all := together(nass.between, fsa.between); near.value < all.value || near.value > together(nass.within, fsa.within).value {
			t.Errorf("%s: neighbouring States %s should stand between different States %s and one State", c, near, all)
		}
	}
	holdRows(t, countyCorrelations(p))
}

// Whatever came in the years that are held back, the estimates are the same.
func TestHeldBackYieldsMoveNothing(t *testing.T) {
	p := agencies(t, "that yields of 2016 and 2022 are held back")
	counts := func(u farm.PastUnit) bool { return invented.LongRun || u.County[:2] == "19" || u.County[:2] == "20" }
	was, other := farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{}}, farm.Past{Harvested: map[farm.PastSeries]map[crop.CropYear]crop.Yield{}}
	for _, r := range p.Rows {
		if !counts(r.PastUnit) {
			continue
		}
		was.Rows = append(was.Rows, r)
		if HeldBack(r.CropYear) {
			r.ActualYield = 1000 / (1 + r.ActualYield)
		}
		other.Rows = append(other.Rows, r)
	}
	for series, yields := range p.Harvested {
		if !counts(series.PastUnit) {
			continue
		}
		was.Harvested[series] = yields
		yields = maps.Clone(yields)
		yields[2016], yields[2022] = 1000, 1
		other.Harvested[series] = yields
	}
	if got, want := YieldDependence(other), YieldDependence(was); !reflect.DeepEqual(got, want) {
		t.Errorf("%v, were %v", got, want)
	}
	t.Logf("checked %d of %d rows of FSA and %d of %d series of NASS", len(was.Rows), len(p.Rows), len(was.Harvested), len(p.Harvested))
}

// inventedYields returns yields of counties of three States, of which 17 and 19 are neighbours and
// 48 is of neither, with a shock of the State in each.
func inventedYields(r *rand.Rand, years int) byCounty {
	all := byCounty{}
	for _, state := range []string{"17", "19", "48"} {
		common := make([]float64, years)
		for i := range common {
			common[i] = r.NormFloat64()
		}
		for county := range 4 {
			s := yearly{}
			for i := range years {
				s[2000+i] = 1 + 0.1*(common[i]+r.NormFloat64())
			}
			all.put(fmt.Sprintf("%s%03d", state, 2*county+1), "", s)
		}
	}
	return all
}

// Where all counties have the same years, the figure of all sums is the mean of the
// correlations of all pairs, worked out pair by pair.
func TestPairsOfCountiesByBruteForce(t *testing.T) {
	const years, tolerance = 12, 1e-12
	all := inventedYields(rand.New(rand.NewPCG(1, 2)), years)
	var within, between, near []float64
	names := slices.Sorted(maps.Keys(all))
	for i, a := range names {
		for _, b := range names[:i] {
			var x, y []float64
			for year := 2000; year < 2000+years; year++ {
				x, y = append(x, all[a][""][year]), append(y, all[b][""][year])
			}
			r := stat.Correlation(x, y, nil)
			switch {
			case a[:2] == b[:2]:
				within = append(within, r)
			case a[:2] != "48" && b[:2] != "48":
				near = append(near, r)
				between = append(between, r)
			default:
				between = append(between, r)
			}
		}
	}
	got := ofCounties(all, years)
	for _, c := range []struct {
		what  string
		got   float64
		pairs []float64
		count int
	}{{"within", got.within.value, within, 18}, {"between", got.between.value, between, 48}, {"neighbours", got.neighbors.value, near, 16}} {
		if want := stat.Mean(c.pairs, nil); math.Abs(c.got-want) > tolerance || len(c.pairs) != c.count {
			t.Errorf("%s: %g, the mean of %d pairs is %g", c.what, c.got, len(c.pairs), want)
		}
	}
	if n := len(got.within.counties); n != 12 || len(got.within.years) != years {
		t.Errorf("%d counties and %d years", n, len(got.within.years))
	}
}

// One county of two practices that move together and one whose practices move against each
// other: the mean is none. A county with too few years does not count.
func TestPracticesOfTwoCounties(t *testing.T) {
	up, down, short := yearly{2001: 1, 2002: 2, 2003: 1, 2004: 2}, yearly{2001: 4, 2002: 2, 2003: 4, 2004: 2}, yearly{2001: 1, 2002: 3}
	irrigated := byCounty{"99001": {"": up}, "99003": {"": up}, "99005": {"": short}}
	got := ofPractices(irrigated, byCounty{"99001": {"": up}, "99003": {"": down}, "99005": {"": up}}, 4)
	if math.Abs(got.value) > 1e-12 || len(got.counties) != 2 || len(got.years) != 4 {
		t.Errorf("got %s, want 0 of two counties and four years", got)
	}
	got = ofPractices(irrigated, byCounty{"99001": {"": up}}, 4)
	if math.Abs(got.value-1) > 1e-12 || got.err > 1e-12 {
		t.Errorf("got %s, want 1 without error", got)
	}
}

// Of a mean, the jackknife gives the textbook error s/sqrt(n): of 1 to 5, sqrt(2.5/5).
func TestJackknifeOfAMean(t *testing.T) {
	values := []float64{1, 2, 3, 4, 5}
	mean, err := jackknife(len(values), func(out int) float64 {
		sum, n := 0.0, 0.0
		for i, x := range values {
			if i != out {
				sum, n = sum+x, n+1
			}
		}
		return sum / n
	})
	if mean != 3 || math.Abs(err-math.Sqrt(0.5)) > 1e-12 {
		t.Errorf("mean %g, error %g, want 3 and %g", mean, err, math.Sqrt(0.5))
	}
}

// Two measures with errors 0.1 and 0.2 weigh 4 to 1: 0.4 and 0.9 give 0.5, error
// 1/sqrt(100+25).
func TestMeasuresTogether(t *testing.T) {
	of := func(value, err float64, years ...crop.CropYear) measure {
		return measure{value, err, map[string]bool{"99001": true}, years}
	}
	got := together(of(0.4, 0.1, 2001, 2002), of(0.9, 0.2, 2002, 2003))
	if math.Abs(got.value-0.5) > 1e-12 || math.Abs(got.err-1/math.Sqrt(125)) > 1e-12 || len(got.years) != 3 || len(got.counties) != 1 {
		t.Errorf("got %s", got)
	}
	if alone := together(measure{}, of(0.9, 0.2, 2003)); alone.value != 0.9 {
		t.Errorf("one alone: %s", alone)
	}
}

// A border has two sides.
func TestNeighborsAreMutual(t *testing.T) {
	for a, list := range touching {
		for i := 0; i < len(list); i += 3 {
			if b := list[i : i+2]; !neighbors(b, a) || a == b {
				t.Errorf("%s touches %s, not the other way", a, b)
			}
		}
	}
	for code := range crop.StateNames {
		if island := code == "02" || code == "15"; island == (touching[code] != "") {
			t.Errorf("State %s touches %q", code, touching[code])
		}
	}
}
