package position

import (
	"maps"
	"slices"
	"strings"
	"testing"

	"fencerow/io/read/builtin"
	"fencerow/program"
	"fencerow/program/crop"
	"fencerow/program/farm"
)

// Where a file begins says nothing of the yield to come, so the mean must not hang on it.
// Corn and soybeans of every county and practice of Iowa and Illinois (99 and 102 counties)
// with a benchmark yield of 2025, as before that harvest: with the built-in past yields cut
// to begin in 1980, 1995 and 2005 the highest of the three means is at most 3 percent above
// the lowest in the middle, and 6 percent in nine of ten. That holds where a trend gives all
// three, and over all rows that have a trend from 1980: four have too few yields since 2005 for one.
func TestMeanDoesNotHangOnWhereASeriesStarts(t *testing.T) {
	const middle, inNineOfTen, fewest = 0.03, 0.06, 200
	rows := begunThrice(t, 2025, crop.Corn, crop.Soybeans)
	for _, of := range [][]crop.Commodity{{crop.Corn}, {crop.Soybeans}, {crop.Corn, crop.Soybeans}} {
		asked := slices.DeleteFunc(slices.Clone(rows), func(r begunRow) bool { return !r.byTrend[0] || !slices.Contains(of, r.unit.Commodity) })
		strict := slices.DeleteFunc(slices.Clone(asked), func(r begunRow) bool { return r.byTrend != [3]bool{true, true, true} })
		if n := countiesOf(asked); n < fewest {
			t.Fatalf("%v: %d counties, want %d", of, n, fewest)
		}
		for _, some := range [][]begunRow{strict, asked} {
			half, nine := spreadOf(some, func(r begunRow) [3]float64 { return r.means })
			t.Logf("%v: %d rows of %d counties, %.1f percent in the middle, %.1f in nine of ten", of, len(some), countiesOf(some), 100*half, 100*nine)
			if half > middle || nine > inNineOfTen {
				t.Errorf("%v: want at most %.0f and %.0f percent", of, 100*middle, 100*inNineOfTen)
			}
		}
		half, nine := spreadOf(strict, func(r begunRow) [3]float64 { return r.trends })
		t.Logf("%v: the trend alone %.1f and %.1f percent", of, 100*half, 100*nine)
		if half <= middle {
			t.Errorf("%v: the cuts matter to no trend, so they show nothing", of)
		}
	}
	few := slices.DeleteFunc(rows, func(r begunRow) bool {
		return !r.byTrend[0] || r.unit.Commodity != crop.Soybeans || r.unit.Practice != farm.Nonirrigated
	})
	half, nine := spreadOf(few, func(r begunRow) [3]float64 { return r.means })
	t.Logf("the widest, nonirrigated soybeans alone: %d rows, %.1f percent in the middle, %.1f in nine of ten", len(few), 100*half, 100*nine)
}

// begunRow is one county, commodity and practice with past yields that begin in 1980, 1995
// and 2005.
type begunRow struct {
	unit    CountyUnit
	means   [3]crop.Yield // units per acre, those that the odds use
	trends  [3]crop.Yield // 0: none
	byTrend [3]bool       // the mean is the trend, drawn to the benchmark
}

// begunThrice returns the rows of Iowa and Illinois with a published benchmark yield.
func begunThrice(t *testing.T, y crop.CropYear, of ...crop.Commodity) (rows []begunRow) {
	t.Helper()
	whole, err := builtin.Sources("19", "17")
	if err != nil {
		t.Fatal(err)
	}
	var units []CountyUnit
	for _, code := range slices.Sorted(maps.Keys(whole[0].Counties)) { // FSA's
		for _, yield := range whole[0].Counties[code].Yields {
			u := CountyUnit{code, yield.Commodity, yield.Practice, y}
			if _, has := publishedBenchmark(whole, u, y); has && slices.Contains(of, u.Commodity) {
				units, rows = append(units, u), append(rows, begunRow{unit: u})
			}
		}
	}
	for begin, first := range [3]crop.CropYear{1980, 1995, 2005} {
		from := Sources{Counties: begunIn(whole, first, y)}
		for i, basis := range YieldBases(from.Counties, units) {
			terms, err := program.TermsFor(units[i].Commodity, y)
			benchmark, ok := from.BenchmarkYield(units[i], terms.YieldDecimals)
			mean, has := basis.Outlook(nil, benchmark)
			if err != nil || !ok || !has {
				t.Fatalf("%v: %v, no benchmark yield or mean", units[i], err)
			}
			rows[i].means[begin] = mean.Mean
			rows[i].trends[begin], _ = basis.Trend()
			rows[i].byTrend[begin] = strings.HasPrefix(mean.MeanFrom, "trend of")
		}
	}
	return rows
}

// begunIn is the book as before the harvest of crop year y, FSA's yields to two years
// before, RMA's, NASS's and the user's to the year before, all from crop year first on.
func begunIn(whole farm.CountyBook, first, y crop.CropYear) (book farm.CountyBook) {
	cut := func(series map[crop.CropYear]crop.Yield, last crop.CropYear) map[crop.CropYear]crop.Yield {
		some := upTo(series, last)
		maps.DeleteFunc(some, func(y crop.CropYear, _ crop.Yield) bool { return y < first })
		return some
	}
	for _, source := range whole {
		counties := map[string]farm.County{}
		for code, county := range source.Counties {
			county.Yields = slices.Clone(county.Yields)
			for i := range county.Yields {
				of := &county.Yields[i]
				of.Actual, of.Insured = cut(of.Actual, y-2), cut(of.Insured, y-1)
				of.Harvested, of.History = cut(of.Harvested, y-1), cut(of.History, y-1)
			}
			counties[code] = county
		}
		source.Counties = counties
		book = append(book, source)
	}
	return book
}

// countiesOf counts the counties of some rows.
func countiesOf(rows []begunRow) int {
	codes := map[string]bool{}
	for _, r := range rows {
		codes[r.unit.County[:5]] = true // without FSA's part of a county
	}
	return len(codes)
}

// spreadOf returns how far the highest of three figures is above the lowest, as a share of
// it: in the middle row, and what nine of ten rows do not pass.
func spreadOf(rows []begunRow, of func(begunRow) [3]float64) (middle, nineOfTen float64) {
	var apart []float64
	for _, r := range rows {
		three := of(r)
		apart = append(apart, slices.Max(three[:])/slices.Min(three[:])-1)
	}
	slices.Sort(apart)
	return apart[len(apart)/2], apart[len(apart)*9/10]
}
